/** A small passage in invented weather, for samples, and to see whether what was accepted can be worked with. */
import type { Forecast } from '../../lib/forecast/index.ts';
import { parsePassage, type Passage } from '../../lib/passage/index.ts';
import { type Planned, planPassage, prepareWindows } from '../../lib/planner/index.ts';
import { formatProblem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_H } from '../../lib/time/index.ts';
import { griddedForecast } from '../studies/gridded-forecast.ts';
import { BASE_EPOCH_MS, drawForecast, START_POSITION } from '../studies/weather.ts';

const SEED = 5;
/** A plan at once, whatever its cost. */
const QUICK = { search: { beamWidths: [40], extensionBudget: 2_000 } };
const START_H = 6;
const at = (hourH: number): string => formatUtc(BASE_EPOCH_MS + hourH * MS_PER_H);

/** Every part a passage file can have, in small. */
const littlePassageFile = (): object => ({
  slatch: 1,
  name: 'A little passage',
  clock: { fixedUtc: at(START_H) },
  start: { timeUtc: at(START_H), ...START_POSITION, sailState: 'full-main' },
  track: [
    START_POSITION,
    { lat: START_POSITION.lat, lon: START_POSITION.lon + 8, leg: 'rhumb' },
    { lat: START_POSITION.lat + 1, lon: START_POSITION.lon + 14, leg: 'great-circle', name: 'turn' },
  ],
  boat: {
    name: 'Lanternwing',
    instrumentHeightM: 18,
    sailStates: [
      { id: 'storm', name: 'Storm sails', mainsail: 'none', headsail: true, areaRatio: 0.2, closestTwaDeg: 60 },
    ],
    speedTables: {
      'full-main': [
        { twaDeg: 50, twsKn: 6, boatSpeedKn: 4 },
        { twaDeg: 150, twsKn: 6, boatSpeedKn: 3.5 },
        { twaDeg: 50, twsKn: 20, boatSpeedKn: 6.5 },
        { twaDeg: 150, twsKn: 20, boatSpeedKn: 7 },
      ],
    },
    handlings: [
      { id: 'run-off', twaDeg: 165, settleMin: 15, limits: { trueWindKn: { ideal: 15, caution: 22, noGo: 30 } } },
    ],
  },
  watchkeeper: {
    sleeps: [
      { startUtc: at(START_H - 10), endUtc: at(START_H - 3) },
      { startUtc: at(START_H - 34), endUtc: at(START_H - 27) },
    ],
    wantedSleepHPer24H: 6,
    usualSleepLocal: '22:00',
    paceByWork: { sewing: { ratio: 1.2, sessionCount: 4 } },
    gloves: 'thin',
  },
  jobs: [
    { id: 'drop', from: 'drop-main', priority: 9, handlings: ['run-off', 'hold-course', 'fore-reach'] },
    {
      id: 'stitch',
      from: 'stitch-tear',
      after: ['drop'],
      priority: 8,
      lengthM: 0.5,
      rows: 2,
      cloth: 'woven-heavy',
      session: { longestMin: 60 },
    },
    {
      id: 'own',
      name: 'Own job',
      priority: 3,
      handlings: ['run-off', 'heave-to'],
      sailStates: ['full-main', 'storm'],
      notBeforeUtc: at(START_H + 2),
      finishByUtc: at(START_H + 40),
      tools: ['palm'],
      steps: [
        {
          id: 'sew',
          name: 'Sew',
          place: 'cockpit',
          work: { leastMin: 20, likelyMin: 30, mostMin: 50 },
          stop: 'anywhere',
          effort: 'light',
          hands: 'fine',
          darkFactorRatio: 1.5,
          limits: { deckWindKn: { ideal: 10, caution: 15, noGo: 22 }, rain: 'none', daylight: 'preferred' },
          waitAfter: { kind: 'cure', leastH: 1, likelyH: 2, mostH: 3, halvesPerC: 10, floorC: 5 },
          materials: [{ item: 'waxed twine', amount: 3, unit: 'm' }],
          safePointAfter: true,
        },
      ],
    },
  ],
  locker: [
    { item: 'waxed twine', unit: 'm', onBoard: 60, keep: 15 },
    { item: 'needles', unit: 'pieces', onBoard: 6, keep: 2, place: 'chart table' },
    { item: 'palm', unit: 'pieces', onBoard: 1 },
    { item: 'sail ties', unit: 'pieces', onBoard: 20 },
    { item: 'batten rod', unit: 'pieces', onBoard: 2, kind: 'bar', lengthMm: 3000, diameterMm: 10 },
  ],
  cutting: { kerfMm: 3, pieces: [{ id: 'batten', lengthMm: 2500, diameterMm: 10, count: 1, priority: 7 }] },
  sails: [
    {
      sail: { kind: 'mainsail', cut: 'cross-cut', luffM: 14.6, footM: 5, panelCount: 12, reefs: { count: 3 } },
      damage: [
        { counted: { from: 'clew', panel: 6 }, distanceFromLeechM: 1.2, lengthM: 0.9, direction: 'across-the-load' },
      ],
    },
  ],
  forbidden: [{ fromUtc: at(START_H + 3), toUtc: at(START_H + 4), job: 'own' }],
  forecasts: ['little.grib2'],
  settings: { slotMin: 20, horizonH: 18, seed: 7, traffic: 'coast', shipTimeOffsetMin: -120 },
});

/** A value that must be there: the samples are ours. */
export function must<T>(result: Result<T>): T {
  if (!result.ok) throw new Error(result.problems.map(formatProblem).join('\n'));
  return result.value;
}

export const littlePassageText = (): string => JSON.stringify(littlePassageFile(), null, 1);
export const littlePassage = (): Passage => must(parsePassage(littlePassageText(), 'little passage'));

let forecast: Forecast | null = null;
let planned: Planned | null = null;

/** Made once: it takes a while. */
export function littleForecast(): Forecast {
  forecast ??= griddedForecast(drawForecast(SEED, { lengthH: 48, memberCount: 3 }));
  return forecast;
}

/** Made once: it takes seconds. */
export function littlePlan(): Planned {
  const passage = littlePassage();
  const nowEpochMs = passage.fixedNowEpochMs ?? 0;
  planned ??= must(planPassage({ passage, forecast: littleForecast(), nowEpochMs }, QUICK));
  return planned;
}

/** The windows of a passage in the little weather; it may say no, it must not throw. */
export function windowsOf(passage: Passage): ReturnType<typeof prepareWindows> {
  const nowEpochMs = passage.fixedNowEpochMs ?? passage.start.epochMs;
  const settings = { ...passage.settings, horizonH: Math.min(passage.settings.horizonH ?? 12, 12) };
  return prepareWindows({ passage: { ...passage, settings }, forecast: littleForecast(), nowEpochMs });
}
