/** An invented world to measure window tables in: smooth weather in many scenarios, a boat on a long leg, late by lags. */
import type { Boat } from '../../lib/boat/index.ts';
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import type { CoursePoints, WeatherAlong } from '../../lib/forecast/index.ts';
import type { Job, Step } from '../../lib/jobs/index.ts';
import { JOB_DEFAULTS, NO_LIMITS, STEP_DEFAULTS } from '../../lib/jobs/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import type { Course } from '../../lib/voyage/index.ts';

export const BASE_EPOCH_MS = Date.UTC(2026, 5, 1);

const rows = (boatSpeedKn: number) =>
  [30, 180].flatMap((twaDeg) => [4, 12, 40].map((twsKn, k) => ({ twaDeg, twsKn, boatSpeedKn: boatSpeedKn - 2 + k })));

export const BENCH_BOAT: Boat = {
  name: 'bench boat',
  instrumentHeightM: 18,
  sailStates: DEFAULT_SAIL_STATES,
  speedTables: { 'full-main': rows(7), 'headsail-only': rows(5) },
  handlings: DEFAULT_HANDLINGS,
};

/** East along 35° S, 6 nm an hour, `lagNm` behind. */
export function benchCourse(slotMin: number, horizonH: number, lagNm: number): Course {
  const slotCount = Math.floor((horizonH * 60) / slotMin) + 1;
  const alongNm = Float64Array.from({ length: slotCount }, (_, i) => Math.max(0, (i * slotMin * 6) / 60 - lagNm));
  return {
    grid: { firstEpochMs: BASE_EPOCH_MS, slotMin, slotCount },
    lat: new Float64Array(slotCount).fill(-35),
    lon: alongNm.map((nm) => -30 + nm / 49),
    courseTowardDegTrue: new Float64Array(slotCount).fill(90),
    alongNm,
  };
}

/** Lulls between blows, each scenario a little earlier or later, stronger or weaker. */
export function benchWeather(scenarioCount: number, points: CoursePoints): WeatherAlong {
  const pointCount = points.epochMs.length;
  const hoursH = points.epochMs.map((epochMs) => (epochMs - BASE_EPOCH_MS) / MS_PER_H);
  const each = (valueOf: (hourH: number, w: number) => number): Float32Array =>
    Float32Array.from({ length: scenarioCount * pointCount }, (_, k) =>
      valueOf((hoursH[k % pointCount] ?? 0) - (points.lon[k % pointCount] ?? 0) / 3, Math.floor(k / pointCount)),
    );
  const all = (valueOf: (hourH: number) => number): Float32Array =>
    Float32Array.from(hoursH, (hourH) => valueOf(hourH));
  const windKn = each((hourH, w) => 12 + (w % 5) / 2 + 8 * Math.sin((hourH + (w % 7)) / 5.1) + Math.sin(hourH * 2 + w));
  return {
    scenarioCount,
    pointCount,
    weights: new Int32Array(scenarioCount).fill(1),
    windKn,
    windFromDegTrue: each((hourH, w) => (200 + 40 * Math.sin(hourH / 9) + w) % 360),
    gustKn: windKn.map((kn) => kn * 1.3),
    seaHeightM: each((hourH, w) => 1.6 + 0.7 * Math.sin((hourH + (w % 7)) / 7) + w / 100),
    wavePeriodS: all((hourH) => 8 + Math.sin(hourH / 6)),
    waveFromDegTrue: all(() => 220),
    pressureHpa: all(() => 1015),
    rainMmPerH: all((hourH) => Math.max(0, Math.sin(hourH / 3) - 0.8)),
    airC: all((hourH) => 12 + 3 * Math.sin(hourH / 4)),
    humidityRatio: all(() => 0.8),
    seaWaterC: all(() => 16),
    visibilityNm: all((hourH) => 8 + 5 * Math.sin(hourH / 8)),
  };
}

const step = (id: string, place: Step['place'], likelyMin: number): Step => ({
  ...STEP_DEFAULTS,
  id,
  name: id,
  place,
  work: { leastMin: likelyMin / 2, likelyMin, mostMin: likelyMin * 2 },
  limits: {
    ...NO_LIMITS,
    deckWindKn: { ideal: 8 + likelyMin / 60, caution: 12, noGo: 17 },
    deckGustNoGoKn: 22,
    seaHeightM: { ideal: 1, caution: 1.6, noGo: 2.4 },
    steepnessNoGoRatio: 0.045,
    daylight: 'required',
    rain: 'none',
    airLeastC: 9,
    seaWaterLeastC: 10,
    visibilityLeastNm: 2,
    dryBeforeH: 2,
  },
});

/** A core of three steps that has every limit there is: on deck, aloft and overside, each with figures of its own. */
export const BENCH_JOB: Job = {
  ...JOB_DEFAULTS,
  id: 'all-limits',
  name: 'All limits',
  handlings: ['run-off', 'heave-to'],
  steps: [step('deck', 'deck', 20), step('aloft', 'aloft', 30), step('overside', 'overside', 25)],
  provenance: { '*': 'invented' },
};
