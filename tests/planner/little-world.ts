/** A small invented world for tests of windows and planner: one boat on one track, weather given by functions. */
import type { Levels, SpeedRow } from '../../lib/boat/index.ts';
import { DEFAULT_HANDLINGS, DEFAULT_SAIL_STATES } from '../../lib/boat/index.ts';
import type { CoursePoints, WeatherAlong } from '../../lib/forecast/index.ts';
import { JOB_DEFAULTS, STEP_DEFAULTS, type Job, type Step, type StepLimits } from '../../lib/jobs/index.ts';
import type { Passage, Settings } from '../../lib/passage/index.ts';
import { DEFAULT_TIME_FACTORS } from '../../lib/person/index.ts';
import type { PlanningWeather } from '../../lib/planner/prepare.ts';
import { MS_PER_H } from '../../lib/time/index.ts';

export const BASE_EPOCH_MS = Date.UTC(2026, 5, 1);

/** Weather of one scenario: hours since BASE_EPOCH_MS to values; NaN: unknown. */
export interface LittleWeather {
  windKn(hourH: number): number;
  windFromDegTrue?(hourH: number): number;
  gustKn?(hourH: number): number;
  seaHeightM(hourH: number): number;
  /** Shared by all scenarios: the first one's are taken. */
  wavePeriodS?: number;
  rainMmPerH?: number | ((hourH: number) => number);
  airC?: number | ((hourH: number) => number);
  humidityRatio?: number | ((hourH: number) => number);
  seaWaterC?: number | ((hourH: number) => number);
  visibilityNm?: number | ((hourH: number) => number);
}

/** Weather from `baseEpochMs` on; scenarios weigh the same unless told otherwise. */
export function littleWeather(
  scenarios: readonly LittleWeather[],
  horizonH: number,
  rest: { baseEpochMs?: number; weights?: Int32Array } = {},
): PlanningWeather {
  const baseEpochMs = rest.baseEpochMs ?? BASE_EPOCH_MS;
  const weights = rest.weights ?? equalWeights(scenarios.length);
  return {
    baseEpochMs,
    endEpochMs: baseEpochMs + horizonH * MS_PER_H,
    weights,
    sampleScenarios: (points) => ({ ...sampled(scenarios, points, baseEpochMs), weights }),
    sampleReference: (points) => ({
      ...sampled(scenarios.slice(0, 1), points, baseEpochMs),
      weights: Int32Array.of(1),
    }),
  };
}

function equalWeights(scenarioCount: number): Int32Array {
  const share = Math.floor(1_000_000 / scenarioCount);
  return Int32Array.from({ length: scenarioCount }, (_, w) =>
    w === 0 ? 1_000_000 - share * (scenarioCount - 1) : share,
  );
}

function sampled(
  scenarios: readonly LittleWeather[],
  points: CoursePoints,
  baseEpochMs: number,
): Omit<WeatherAlong, 'weights'> {
  const pointCount = points.epochMs.length;
  const each = (value: (weather: LittleWeather, hourH: number) => number): Float32Array =>
    Float32Array.from({ length: scenarios.length * pointCount }, (_, k) => {
      const weather = scenarios[Math.floor(k / pointCount)];
      const hourH = ((points.epochMs[k % pointCount] ?? 0) - baseEpochMs) / MS_PER_H;
      return weather === undefined ? Number.NaN : value(weather, hourH);
    });
  const shared = (value: number | ((hourH: number) => number)): Float32Array =>
    Float32Array.from(points.epochMs, (at) =>
      typeof value === 'number' ? value : value((at - baseEpochMs) / MS_PER_H),
    );
  const [first] = scenarios;
  return {
    scenarioCount: scenarios.length,
    pointCount,
    windKn: each((weather, hourH) => weather.windKn(hourH)),
    windFromDegTrue: each((weather, hourH) => weather.windFromDegTrue?.(hourH) ?? 200),
    gustKn: each((weather, hourH) => weather.gustKn?.(hourH) ?? weather.windKn(hourH) * 1.3),
    seaHeightM: each((weather, hourH) => weather.seaHeightM(hourH)),
    wavePeriodS: shared(first?.wavePeriodS ?? 9),
    waveFromDegTrue: shared(200),
    pressureHpa: shared(1015),
    rainMmPerH: shared(first?.rainMmPerH ?? 0),
    airC: shared(first?.airC ?? 18),
    humidityRatio: shared(first?.humidityRatio ?? 0.7),
    seaWaterC: shared(first?.seaWaterC ?? 18),
    visibilityNm: shared(first?.visibilityNm ?? 10),
  };
}

export const NO_STEP_LIMITS: StepLimits = {
  deckWindKn: null,
  deckGustNoGoKn: null,
  seaHeightM: null,
  steepnessNoGoRatio: null,
  daylight: 'not-needed',
  rain: 'any',
  airLeastC: null,
  seaWaterLeastC: null,
  visibilityLeastNm: null,
  dryBeforeH: null,
  byEye: [],
};

/** A step of a fixed length that cannot be interrupted, on deck, by anyone awake. */
export function littleStep(id: string, lengthMin: number, limits: Partial<StepLimits> = {}): Step {
  return {
    ...STEP_DEFAULTS,
    id,
    name: id,
    place: 'deck',
    work: { leastMin: lengthMin, likelyMin: lengthMin, mostMin: lengthMin },
    stop: 'at-end',
    lookout: 'full',
    effort: 'light',
    hands: 'gross',
    limits: { ...NO_STEP_LIMITS, ...limits },
    darkFactorRatio: 1,
    session: null,
    waitAfter: null,
    safePointAfter: true,
    sailStateAfter: null,
    materials: [],
    instructions: [],
  };
}

export function littleJob(id: string, steps: readonly Step[], rest: Partial<Job> = {}): Job {
  return {
    ...JOB_DEFAULTS,
    id,
    name: id,
    steps,
    provenance: { '*': 'invented' },
    ...rest,
  };
}

const LITTLE_SETTINGS: Settings = {
  wantedProbability: 0.8,
  probabilityTolerancePoints: 2,
  slotMin: 10,
  horizonH: null,
  seed: 1,
  errorModel: 'none',
  contingencyShare: 0.5,
  contingencyLeastMin: 30,
  planningLimitRatio: 1,
  keepPlanUnlessBetterPoints: 5,
  spreadInflationRatio: 1,
  gustRatio: 1.3,
  deckHeightM: 2,
  traffic: 'ocean',
  longestSleepMin: 180,
  shipTimeOffsetMin: 0,
  steadyingWindRule: true,
  eyeHeightM: 2.5,
  otherShipKn: 20,
  lookoutLongestMin: 20,
};

/** A well-slept sailor at 35° S 30° W, bound east under full main at 6 kn whatever the wind. */
export function littlePassage(
  jobs: readonly Job[],
  settings: Partial<Settings> = {},
  baseEpochMs = BASE_EPOCH_MS,
): Passage {
  const night = (dayIndex: number): { startEpochMs: number; endEpochMs: number } => ({
    startEpochMs: baseEpochMs - dayIndex * 24 * MS_PER_H,
    endEpochMs: baseEpochMs - (dayIndex * 24 - 8) * MS_PER_H,
  });
  return {
    name: 'little passage',
    fixedNowEpochMs: baseEpochMs + 12 * MS_PER_H,
    start: { epochMs: baseEpochMs + 12 * MS_PER_H, position: { lat: -35, lon: -30 }, sailStateId: 'full-main' },
    track: {
      waypoints: [
        { lat: -35, lon: -30, name: null, leg: 'rhumb' },
        { lat: -35, lon: 10, name: null, leg: 'rhumb' },
      ],
    },
    boat: {
      name: 'little boat',
      instrumentHeightM: 18,
      sailStates: DEFAULT_SAIL_STATES,
      speedTables: {
        'full-main': [30, 180].flatMap((twaDeg) => [6, 40].map((twsKn) => ({ twaDeg, twsKn, boatSpeedKn: 6 }))),
        'headsail-only': [30, 180].flatMap((twaDeg) => [6, 40].map((twsKn) => ({ twaDeg, twsKn, boatSpeedKn: 4 }))),
      },
      handlings: DEFAULT_HANDLINGS,
    },
    watchkeeper: {
      sleeps: [night(3), night(2), night(1), night(0)],
      wantedSleepHPer24H: 6,
      usualSleepSolarH: 22,
      sleepEfficiencyRatio: 0.85,
      paceRatio: 1,
      bodyClockLagMin: 0,
      gloves: 'none',
      timeFactors: DEFAULT_TIME_FACTORS,
      leastSleepHPer24H: 4,
      bodyKg: 80,
    },
    jobs,
    sails: [],
    cutting: null,
    locker: { items: [] },
    orders: { jobs: new Map(), forbidden: [] },
    forecasts: [],
    settings: { ...LITTLE_SETTINGS, ...settings },
    defaultsUsed: [],
  };
}

/** Rows of a table that gives one speed in any wind but a dead calm. */
export const speedRows = (boatSpeedKn: number): SpeedRow[] =>
  [30, 180].flatMap((twaDeg) => [0.05, 60].map((twsKn) => ({ twaDeg, twsKn, boatSpeedKn })));

/** The same passage with a boat that keeps one speed in every sail state; at 0 she stays where she is. */
export function withBoatSpeed(passage: Passage, boatSpeedKn: number): Passage {
  const speedTables = { 'full-main': speedRows(boatSpeedKn), 'headsail-only': speedRows(boatSpeedKn) };
  return { ...passage, boat: { ...passage.boat, speedTables } };
}

/** Ideal, caution and no-go all at one value: no change of pace inside the limit. */
export const onlyNoGo = (noGo: number): Levels => ({ ideal: noGo, caution: noGo, noGo });
