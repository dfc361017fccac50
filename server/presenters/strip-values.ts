import type { JobPicture, LimitLevels, PlanPicture } from '../../lib/planner/index.ts';
import { figureText } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import { type Bins, binsOf, gathered, unknownSpans } from './strip-bins.ts';
import type { LimitLine, TimeAxis, ValueLane } from './strip-model.ts';
import { wordLines } from './word-lines.ts';

/** Longest line under a lane's name. */
const UNDER_NAME_CHARACTERS = 15;
const RAIN_SEEN_MM_PER_H = 0.1;

/** Lanes of values for the chosen job; rain and air only where they bind. */
export function valueLanes(picture: PlanPicture, job: JobPicture | null, axis: TimeAxis): ValueLane[] {
  const bins = binsOf(picture.slotEpochMs, axis);
  const lanes = [
    ...(job === null ? [] : [windLane(picture, job, bins)]),
    seaLane(picture, job, bins),
    ...rainLane(picture, job, bins),
    ...airLane(picture, job, bins),
    alertnessLane(picture, job, bins),
  ];
  return lanes.map((lane) => ({ ...lane, unknown: unknownSpans(lane) }));
}

export const largest = (values: readonly (number | null | undefined)[]): number =>
  Math.max(0, ...values.map((value) => value ?? 0));

export const roundUp = (value: number, step: number): number => Math.ceil(value / step) * step;

export const everyStep = (most: number, step: number, least = 0): { value: number; text: string }[] =>
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

/** A lane without fan, note or limits, from 0 up. */
export function plainLane(
  bins: Bins,
): Pick<ValueLane, 'epochMs' | 'bands' | 'unknown' | 'note' | 'least' | 'underName'> {
  return { epochMs: bins.epochMs, bands: [], unknown: [], note: null, least: 0, underName: [] };
}
