import type { JobPicture, LimitLevels, PlanPicture } from '../../lib/planner/index.ts';
import { limitFigure } from './amount-texts.ts';
import { handlingText } from './handling-text.ts';
import { type Bins, binsOf, gathered, unknownSpans } from './strip-bins.ts';
import type { LimitLine, TimeAxis, ValueLane } from './strip-model.ts';
import { heightTicks, laneUnit, temperatureTicks, windTicks } from './units/lane-ticks.ts';
import { shownUnit } from './units/amounts.ts';
import type { ShownUnits } from './units/shown-units.ts';
import { wordLines } from './word-lines.ts';

/** Longest line under a lane's name. */
const UNDER_NAME_CHARACTERS = 15;
const RAIN_SEEN_MM_PER_H = 0.1;

interface LanesDrawn {
  readonly axis: TimeAxis;
  readonly units: ShownUnits;
  /** Ids of limits that are the tightest somewhere in these hours; absent: not worked out. */
  readonly binding?: ReadonlySet<string>;
}

const NOTHING: ReadonlySet<string> = new Set();

/**
 * Lanes of values for the chosen job; rain and air only where they bind. Values stay in kn, m and °C, for that is only
 * where they stand; names, ticks and labels are in the reader's units.
 */
export function valueLanes(
  picture: PlanPicture,
  job: JobPicture | null,
  { axis, units, binding = NOTHING }: LanesDrawn,
): ValueLane[] {
  const bins = binsOf(picture.slotEpochMs, axis);
  const lanes = [
    ...(job === null ? [] : [windLane(picture, job, bins, units)]),
    seaLane(picture, job, bins, units),
    ...rainLane(picture, job, { bins, binding }),
    ...airLane(picture, job, { bins, units, binding }),
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

function levelLines(levels: LimitLevels | null, unit: string, units: ShownUnits): LimitLine[] {
  if (levels === null) return [];
  const line = (kind: 'ideal' | 'caution' | 'no-go', value: number): LimitLine => {
    return { kind, value, text: `${kind} ${limitLabel(value, unit, units)}` };
  };
  return [line('no-go', levels.noGo), line('caution', levels.caution), line('ideal', levels.ideal)];
}

/** The figure of a limit; in knots it says so where the axis counts forces. */
export function limitLabel(value: number, unit: string, units: ShownUnits): string {
  const figure = limitFigure(value, unit, units);
  return laneUnit(unit, units) === shownUnit(unit, units) ? figure : `${figure} ${shownUnit(unit, units)}`;
}

const noteFor = (limits: readonly LimitLine[]): string | null => (limits.length === 0 ? 'no limit' : null);

function windLane(picture: PlanPicture, job: JobPicture, bins: Bins, units: ShownUnits): ValueLane {
  const fan = job.deckWindKn;
  const gust = gathered(job.deckGustKn, bins, 'most');
  const high = gathered(fan.p90, bins, 'most');
  const gustNoGoKn = job.limits.deckGustNoGoKn;
  const gustLine: LimitLine[] =
    gustNoGoKn === null
      ? []
      : [{ kind: 'gust', value: gustNoGoKn, text: `gust ${limitLabel(gustNoGoKn, 'kn', units)}` }];
  const limits = [...gustLine, ...levelLines(job.limits.deckWindKn, 'kn', units)];
  const most = Math.min(60, roundUp(largest([...gust, ...high, ...limits.map((line) => line.value + 1)]), 5));
  return {
    id: 'wind',
    name: 'Deck wind',
    shortName: 'Deck wind',
    shortUnit: laneUnit('kn', units),
    unit: laneUnit('kn', units),
    underName: wordLines(handlingText(picture, job.handling), { characters: UNDER_NAME_CHARACTERS, lineCount: 3 }),
    least: 0,
    most,
    ticks: windTicks(most, units),
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

function seaLane(picture: PlanPicture, job: JobPicture | null, bins: Bins, units: ShownUnits): ValueLane {
  const high = gathered(picture.seaHeightM.p90, bins, 'most');
  const limits = levelLines(job?.limits.seaHeightM ?? null, 'm', units);
  const most = Math.max(2, roundUp(largest([...high, ...limits.map((line) => line.value + 0.2)]), 1));
  return {
    id: 'sea',
    name: 'Sea',
    shortName: 'Sea',
    shortUnit: laneUnit('m', units),
    unit: laneUnit('m', units),
    underName: [],
    least: 0,
    most,
    ticks: heightTicks(most, units),
    epochMs: bins.epochMs,
    bands: [{ kind: 'outer', low: gathered(picture.seaHeightM.p10, bins, 'least'), high }],
    curves: [{ kind: 'median', values: gathered(picture.seaHeightM.p50, bins, 'first') }],
    limits,
    unknown: [],
    note: noteFor(limits),
  };
}

function rainLane(
  picture: PlanPicture,
  job: JobPicture | null,
  { bins, binding }: { bins: Bins; binding: ReadonlySet<string> },
): ValueLane[] {
  const values = gathered(picture.rainMmPerH, bins, 'most');
  const isTightest = binding.has('rain') || binding.has('dry-spell');
  const binds = isTightest || values.some((value) => value === null || value > RAIN_SEEN_MM_PER_H);
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

function airLane(
  picture: PlanPicture,
  job: JobPicture | null,
  { bins, units, binding }: { bins: Bins; units: ShownUnits; binding: ReadonlySet<string> },
): ValueLane[] {
  const leastC = job?.limits.airLeastC ?? null;
  const values = gathered(picture.airC, bins, 'least');
  const binds =
    binding.has('air-temperature') || values.some((value) => value === null || (leastC !== null && value < leastC));
  if (leastC === null || !binds) return [];
  const least = Math.floor(Math.min(leastC, ...values.map((value) => value ?? leastC)) / 5) * 5;
  const most = Math.max(least + 5, roundUp(largest(values), 5));
  return [
    {
      ...plainLane(bins),
      id: 'air',
      name: 'Air',
      shortName: 'Air',
      shortUnit: laneUnit('°C', units),
      unit: laneUnit('°C', units),
      least,
      most,
      ticks: temperatureTicks({ leastC: least, mostC: most }, units),
      curves: [{ kind: 'median', values }],
      limits: [{ kind: 'no-go', value: leastC, text: `at least ${limitFigure(leastC, '°C', units, 'at-least')}` }],
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
