import type { JobPicture, LimitLevels, PlanPicture } from '../../lib/planner/index.ts';
import { figureText } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import type { LimitLine, TimeAxis, TimeSpan, ValueLane } from './strip-model.ts';
import { wordLines } from './word-lines.ts';

/** Longest line under a lane's name. */
const UNDER_NAME_CHARACTERS = 15;
/** Points drawn per curve at most; more would not be seen. */
const MOST_POINTS = 220;
const RAIN_SEEN_MM_PER_H = 0.1;

/** Slots gathered so that a curve has few points and loses no peak. */
interface Bins {
  readonly epochMs: readonly number[];
  readonly starts: readonly number[];
  readonly sizeCount: number;
}

type Kept = 'first' | 'least' | 'most';

/** Lanes of values for the chosen job; rain and air only where they bind. */
export function valueLanes(picture: PlanPicture, job: JobPicture | null, axis: TimeAxis): ValueLane[] {
  const bins = binsOf(picture, axis);
  const lanes = [
    ...(job === null ? [] : [windLane(picture, job, bins)]),
    seaLane(picture, job, bins),
    ...rainLane(picture, job, bins),
    ...airLane(picture, job, bins),
    alertnessLane(picture, job, bins),
  ];
  return lanes.map((lane) => ({ ...lane, unknown: unknownSpans(lane) }));
}

function binsOf(picture: PlanPicture, axis: TimeAxis): Bins {
  const slots = Array.from(picture.slotEpochMs);
  const shownCount = slots.filter((epochMs) => epochMs <= axis.toEpochMs).length;
  const sizeCount = Math.max(1, Math.ceil(shownCount / MOST_POINTS));
  const starts = slots.flatMap((epochMs, i) => (i % sizeCount === 0 && epochMs <= axis.toEpochMs ? [i] : []));
  return { starts, sizeCount, epochMs: starts.map((i) => slots[i] ?? 0) };
}

function gathered(values: Float32Array, bins: Bins, kept: Kept): (number | null)[] {
  return bins.starts.map((start) => {
    const known = Array.from(values.subarray(start, start + bins.sizeCount)).filter((value) => !Number.isNaN(value));
    if (known.length === 0 || Number.isNaN(values[start])) return null;
    if (kept === 'first') return known[0] ?? null;
    return kept === 'least' ? Math.min(...known) : Math.max(...known);
  });
}

const largest = (values: readonly (number | null | undefined)[]): number =>
  Math.max(0, ...values.map((value) => value ?? 0));

const roundUp = (value: number, step: number): number => Math.ceil(value / step) * step;

const everyStep = (most: number, step: number, least = 0): { value: number; text: string }[] =>
  Array.from({ length: Math.floor((most - least) / step) + 1 }, (_, i) => ({
    value: least + i * step,
    text: String(least + i * step),
  }));

function levelLines(levels: LimitLevels | null, unit: string): LimitLine[] {
  if (levels === null) return [];
  const line = (kind: 'ideal' | 'caution' | 'no-go', value: number): LimitLine => {
    return { kind, value, text: `${kind} ${figureText(value, unit)}` };
  };
  return [line('no-go', levels.noGo), line('caution', levels.caution), line('ideal', levels.ideal)];
}

const noteFor = (limits: readonly LimitLine[]): string | null => (limits.length === 0 ? 'no limit' : null);

function windLane(picture: PlanPicture, job: JobPicture, bins: Bins): ValueLane {
  const fan = job.deckWindKn;
  const gust = gathered(job.deckGustKn, bins, 'most');
  const high = gathered(fan.p90, bins, 'most');
  const gustNoGoKn = job.limits.deckGustNoGoKn;
  const gustLine: LimitLine[] =
    gustNoGoKn === null ? [] : [{ kind: 'gust', value: gustNoGoKn, text: `gust ${figureText(gustNoGoKn, 'kn')}` }];
  const limits = [...gustLine, ...levelLines(job.limits.deckWindKn, 'kn')];
  const most = Math.min(60, roundUp(largest([...gust, ...high, ...limits.map((line) => line.value + 1)]), 5));
  return {
    id: 'wind',
    name: 'Deck wind',
    shortName: 'Deck wind',
    shortUnit: 'kn',
    unit: 'kn',
    underName: wordLines(handlingText(picture, job.handling), { characters: UNDER_NAME_CHARACTERS, lineCount: 3 }),
    least: 0,
    most,
    ticks: everyStep(most, 10),
    epochMs: bins.epochMs,
    bands: [
      { kind: 'outer', low: gathered(fan.p10, bins, 'least'), high },
      { kind: 'inner', low: gathered(fan.p25, bins, 'least'), high: gathered(fan.p75, bins, 'most') },
    ],
    curves: [
      { kind: 'gust', values: gust },
      { kind: 'median', values: gathered(fan.p50, bins, 'first') },
    ],
    limits,
    unknown: [],
    note: noteFor(limits),
  };
}

function seaLane(picture: PlanPicture, job: JobPicture | null, bins: Bins): ValueLane {
  const high = gathered(picture.seaHeightM.p90, bins, 'most');
  const limits = levelLines(job?.limits.seaHeightM ?? null, 'm');
  const most = Math.max(2, roundUp(largest([...high, ...limits.map((line) => line.value + 0.2)]), 1));
  return {
    id: 'sea',
    name: 'Sea',
    shortName: 'Sea',
    shortUnit: 'm',
    unit: 'm',
    underName: [],
    least: 0,
    most,
    ticks: everyStep(most, most > 3 ? 2 : 1),
    epochMs: bins.epochMs,
    bands: [{ kind: 'outer', low: gathered(picture.seaHeightM.p10, bins, 'least'), high }],
    curves: [{ kind: 'median', values: gathered(picture.seaHeightM.p50, bins, 'first') }],
    limits,
    unknown: [],
    note: noteFor(limits),
  };
}

function rainLane(picture: PlanPicture, job: JobPicture | null, bins: Bins): ValueLane[] {
  const values = gathered(picture.rainMmPerH, bins, 'most');
  const binds = values.some((value) => value === null || value > RAIN_SEEN_MM_PER_H);
  if (job?.limits.rain !== 'none' || !binds) return [];
  const most = Math.max(2, roundUp(largest(values), 1));
  return [
    {
      ...plainLane(bins),
      id: 'rain',
      name: 'Rain',
      shortName: 'Rain',
      shortUnit: 'mm/h',
      unit: 'mm/h',
      most,
      ticks: everyStep(most, most),
      curves: [{ kind: 'median', values }],
      limits: [{ kind: 'no-go', value: RAIN_SEEN_MM_PER_H, text: 'must be dry' }],
    },
  ];
}

function airLane(picture: PlanPicture, job: JobPicture | null, bins: Bins): ValueLane[] {
  const leastC = job?.limits.airLeastC ?? null;
  const values = gathered(picture.airC, bins, 'least');
  if (leastC === null || !values.some((value) => value === null || value < leastC)) return [];
  const least = Math.floor(Math.min(leastC, ...values.map((value) => value ?? leastC)) / 5) * 5;
  const most = Math.max(least + 5, roundUp(largest(values), 5));
  return [
    {
      ...plainLane(bins),
      id: 'air',
      name: 'Air',
      shortName: 'Air',
      shortUnit: '°C',
      unit: '°C',
      least,
      most,
      ticks: everyStep(most, most - least, least),
      curves: [{ kind: 'median', values }],
      limits: [{ kind: 'no-go', value: leastC, text: `at least ${figureText(leastC, '°C')}` }],
    },
  ];
}

function alertnessLane(picture: PlanPicture, job: JobPicture | null, bins: Bins): ValueLane {
  const values = gathered(picture.alertnessPoints, bins, 'first');
  const gate = job?.leastAlertnessPoints ?? null;
  const gateText = gate === null ? '' : String(Math.ceil(gate * 10 - 1e-6) / 10);
  const known = values.filter((value) => value !== null);
  const least = Math.floor(Math.min(5, ...known));
  const most = Math.max(12, Math.ceil(largest(known)));
  const limits: LimitLine[] = gate === null ? [] : [{ kind: 'gate', value: gate, text: `tired below ${gateText}` }];
  return {
    ...plainLane(bins),
    id: 'alertness',
    name: 'Alertness',
    shortName: 'Alert',
    shortUnit: 'pts',
    unit: 'points',
    least,
    most,
    ticks: everyStep(10, 5, 5),
    curves: [{ kind: 'median', values }],
    limits,
    note: noteFor(limits),
  };
}

function plainLane(bins: Bins): Pick<ValueLane, 'epochMs' | 'bands' | 'unknown' | 'note' | 'least' | 'underName'> {
  return { epochMs: bins.epochMs, bands: [], unknown: [], note: null, least: 0, underName: [] };
}

/** Where the first curve of a lane has no value; each span reaches to the next known point. */
function unknownSpans(lane: ValueLane): TimeSpan[] {
  const values = lane.curves.at(-1)?.values ?? [];
  const spans: TimeSpan[] = [];
  values.forEach((value, i) => {
    if (value !== null) return;
    const fromEpochMs = lane.epochMs[i] ?? 0;
    const toEpochMs = lane.epochMs[i + 1] ?? fromEpochMs;
    const last = spans.at(-1);
    if (last?.toEpochMs === fromEpochMs) spans[spans.length - 1] = { ...last, toEpochMs };
    else if (toEpochMs > fromEpochMs) spans.push({ fromEpochMs, toEpochMs });
  });
  return spans;
}
