/** Invented hours for the pages' tests: a lull between two blows, in round numbers. Nothing here is a measurement. */
import type { JobPicture, PlanPicture, Spread, WideSpread } from '../../lib/planner/index.ts';
import { MS_PER_H, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';

export const at = (utc: string): number => {
  const parsed = parseUtc(utc, 'fixture');
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  return parsed.value;
};

export const NOW_EPOCH_MS = at('2026-05-27T20:12Z');
const SHIP_TIME_OFFSET_MIN = 720;
/** The body clock follows the ship's slowly. */
const BODY_CLOCK_BEHIND_H = 0.5;
const FIRST_EPOCH_MS = at('2026-05-27T20:20Z');
const SLOT_MIN = 10;
const SLOT_COUNT = 96 * 6 + 1;

export const slotEpochMs = Float64Array.from(
  { length: SLOT_COUNT },
  (_, i) => FIRST_EPOCH_MS + i * SLOT_MIN * MS_PER_MIN,
);

type Anchors = readonly (readonly [hour: number, value: number])[];

/** Hours after now, and the value there; straight between. */
const trueWindKn: Anchors = [
  [0, 26], [6, 24], [12, 20], [18, 14], [22, 9], [28, 6.5], [33, 8], [40, 13], [48, 18], [60, 24], [72, 28], [84, 24], [97, 20],
]; // prettier-ignore
const seaM: Anchors = [
  [0, 3.3], [12, 2.9], [24, 2], [36, 1.5], [48, 2], [72, 3.7], [97, 3.1],
]; // prettier-ignore
const alertness: Anchors = [
  [0, 6.3], [0.4, 6.2], [3.6, 8.9], [8, 9.7], [13, 9.3], [15, 8.4], [20, 8.1], [23.4, 9.4], [29, 10.1], [34, 9.6],
  [38, 8.2], [44, 7.6], [48, 9.5], [56, 9.7], [62, 8.1], [68, 7.6], [72, 9.3], [80, 9.6], [86, 8], [92, 7.7], [97, 9.2],
]; // prettier-ignore
const lapses: Anchors = [
  [0, 10.6], [0.4, 10.8], [3.6, 6.2], [8, 5.1], [13, 6.4], [22.4, 4.2], [34, 6.9], [43, 5], [58, 8.2], [67, 6.1], [92, 13], [97, 13.4],
]; // prettier-ignore
const windFromDegTrue: Anchors = [
  [0, 225],
  [18, 210],
  [26, 160],
  [34, 40],
  [48, 350],
  [72, 330],
  [97, 240],
];

function valueAt(anchors: Anchors, epochMs: number): number {
  const hour = (epochMs - NOW_EPOCH_MS) / MS_PER_H;
  const next = anchors.findIndex(([atHour]) => atHour >= hour);
  const [h1, v1] = anchors[next === -1 ? anchors.length - 1 : next] ?? [0, 0];
  const [h0, v0] = anchors[Math.max(0, next - 1)] ?? [0, 0];
  return h1 === h0 ? v1 : v0 + ((v1 - v0) * (hour - h0)) / (h1 - h0);
}

const overSlots = (value: (epochMs: number) => number): Float32Array => Float32Array.from(slotEpochMs, value);
const leadH = (epochMs: number): number => (epochMs - NOW_EPOCH_MS) / MS_PER_H;
const windSdKn = (epochMs: number): number => 1.2 + 0.03 * leadH(epochMs);
const seaSdM = (epochMs: number): number => 0.15 + 0.006 * leadH(epochMs);

/** Wind over the deck under three ways of handling the boat, invented but of the right order. */
const deckMeanKn: Readonly<Record<string, (windKn: number) => number>> = {
  'run-off': (windKn) => Math.max(1.5, 0.838 * windKn - 5.5),
  'hold-course': (windKn) => 0.838 * windKn + 1,
  'close-reach-headsail': (windKn) => 0.838 * windKn + 3,
};

export function deckWind(handling: string): { wind: WideSpread; gust: Float32Array } {
  const toDeck = deckMeanKn[handling] ?? ((windKn: number) => windKn);
  const mean = (epochMs: number): number => toDeck(valueAt(trueWindKn, epochMs));
  const shifted = (sdCount: number): Float32Array =>
    overSlots((epochMs) => Math.max(0, mean(epochMs) + sdCount * windSdKn(epochMs)));
  return {
    wind: { p10: shifted(-1.28), p25: shifted(-0.67), p50: shifted(0), p75: shifted(0.67), p90: shifted(1.28) },
    gust: overSlots((epochMs) => Math.max(1.3 * mean(epochMs), mean(epochMs) + 3)),
  };
}

const sea: Spread = {
  p10: overSlots((epochMs) => valueAt(seaM, epochMs) - 1.28 * seaSdM(epochMs)),
  p50: overSlots((epochMs) => valueAt(seaM, epochMs)),
  p90: overSlots((epochMs) => valueAt(seaM, epochMs) + 1.28 * seaSdM(epochMs)),
};

/** Over the length of deep-water waves of 9 s, 1.56 T² m. */
const steepness: Spread = {
  p10: sea.p10.map((heightM) => heightM / (1.56 * 81)),
  p50: sea.p50.map((heightM) => heightM / (1.56 * 81)),
  p90: sea.p90.map((heightM) => heightM / (1.56 * 81)),
};

/** Light by ship's time, as about 35 degrees south at the end of May: first nautical light 06:20, sunset 16:55. */
function lightAt(epochMs: number): 'day' | 'civil' | 'nautical' | 'night' {
  const hour = ((epochMs / MS_PER_H + SHIP_TIME_OFFSET_MIN / 60) % 24) - 11.9;
  const offNoon = Math.abs(hour);
  if (offNoon < 5) return 'day';
  if (offNoon < 5.45) return 'civil';
  return offNoon < 6 ? 'nautical' : 'night';
}

/** Start times that keep the mean of the fan's upper quartile below no-go, by day where `needsDay`. */
export function startSpans(job: {
  picture: Pick<JobPicture, 'deckWindKn' | 'limits'>;
  referenceMin: number;
  needsDay: boolean;
  conditional: boolean;
}): JobPicture['windows'] {
  const { deckWindKn, limits } = job.picture;
  const fair = Array.from(slotEpochMs, (epochMs, i) => {
    const windFair = limits.deckWindKn === null || (deckWindKn.p75[i] ?? 99) <= limits.deckWindKn.noGo;
    const seaFair = limits.seaHeightM === null || (sea.p50[i] ?? 99) <= limits.seaHeightM.noGo;
    return windFair && seaFair && (!job.needsDay || ['day', 'civil'].includes(lightAt(epochMs)));
  });
  const need = Math.ceil(job.referenceMin / SLOT_MIN) + 1;
  const starts = fair.map((_, i) => i + need <= fair.length && fair.slice(i, i + need).every(Boolean));
  return starts.flatMap((can, i) => {
    if (!can || starts[i - 1] === true) return [];
    const end = starts.indexOf(false, i);
    const last = slotEpochMs[end === -1 ? starts.length - 1 : end - 1] ?? 0;
    return [{ firstStartEpochMs: slotEpochMs[i] ?? 0, lastStartEpochMs: last, conditional: job.conditional }];
  });
}

/** The picture without its jobs. */
export const skyAndSea: Omit<PlanPicture, 'jobs'> = {
  nowEpochMs: NOW_EPOCH_MS,
  clock: 'fixed',
  shipTimeOffsetMin: SHIP_TIME_OFFSET_MIN,
  wantedProbability: 0.65,
  slotEpochMs,
  light: Array.from(slotEpochMs, lightAt),
  alertnessPoints: overSlots((epochMs) => valueAt(alertness, epochMs)),
  lapses: overSlots((epochMs) => valueAt(lapses, epochMs)),
  bodyClockH: overSlots((epochMs) => (epochMs / MS_PER_H + SHIP_TIME_OFFSET_MIN / 60 - BODY_CLOCK_BEHIND_H) % 24),
  seaHeightM: sea,
  rainMmPerH: overSlots(() => Number.NaN),
  airC: overSlots((epochMs) => 14 + 2 * Math.cos(((leadH(epochMs) - 5) * Math.PI) / 12)),
  wavePeriodS: overSlots(() => 9),
  hours: {
    trueWindKn: {
      p10: overSlots((epochMs) => valueAt(trueWindKn, epochMs) - 1.28 * windSdKn(epochMs)),
      p50: overSlots((epochMs) => valueAt(trueWindKn, epochMs)),
      p90: overSlots((epochMs) => valueAt(trueWindKn, epochMs) + 1.28 * windSdKn(epochMs)),
    },
    trueWindFromDegTrue: overSlots((epochMs) => valueAt(windFromDegTrue, epochMs)),
    steepnessRatio: steepness,
    seaWaterC: overSlots((epochMs) => 17 - leadH(epochMs) / 100),
    visibilityNm: overSlots((epochMs) => (leadH(epochMs) < 30 ? 8 : Number.NaN)),
    moon: Array.from(slotEpochMs, (epochMs) => (lightAt(epochMs) === 'night' ? 'useful' : 'down')),
  },
  trueWind: Array.from({ length: 32 }, (_, i) => {
    const atEpochMs = at('2026-05-27T21:00Z') + i * 3 * MS_PER_H;
    return {
      atEpochMs,
      windKn: valueAt(trueWindKn, atEpochMs),
      windFromDegTrue: valueAt(windFromDegTrue, atEpochMs),
      lat: -35.4,
    };
  }),
  handlingNames: {
    'run-off': 'running off',
    'hold-course': 'holding course',
    'close-reach-headsail': 'close-reaching under headsail',
  },
  defaults: [
    { name: 'longest sleep', text: '180 min' },
    { name: 'gust where none is forecast', text: '1.3 × mean' },
    { name: 'contingency', text: 'half the planned time, 30 min at least' },
  ],
};
