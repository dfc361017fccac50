import {
  CONTROL_ID,
  type Forecast,
  type ForecastFile,
  knownAlong,
  type KnownState,
  type QuantityCoverage,
  quantityOf,
  type Series,
} from '../../../lib/forecast/index.ts';
import type { Passage } from '../../../lib/passage/index.ts';
import { slotEpochMs } from '../../../lib/time/index.ts';
import { measureTrack } from '../../../lib/track/index.ts';
import type { Course } from '../../../lib/voyage/index.ts';
import type {
  AreaCovered,
  CoverageData,
  QuantityCovered,
  RunCovered,
  SilentSpan,
  StepCovered,
} from './coverage-model.ts';
import { filesCovered } from './files-covered.ts';
import { areaCovered, runningOn } from './grid-ring.ts';
import { jobsInNeed } from './jobs-in-need.ts';

/** What coverage is looked at along. */
export interface Covered {
  readonly passage: Passage;
  readonly forecast: Forecast;
  readonly files: readonly ForecastFile[];
  /** Where the boat will be without stopping. */
  readonly nominal: Pick<Course, 'grid' | 'lat' | 'lon' | 'alongNm'>;
  /** The plan lies between these slots of it. */
  readonly fromSlot: number;
  readonly untilSlot: number;
}

/** What a forecast covers of a way: in space, in time, and where the boat will be. */
export function coverageData(of: Covered): CoverageData {
  const { passage, forecast, nominal, fromSlot } = of;
  const slots = Array.from({ length: Math.max(0, nominal.grid.slotCount - fromSlot) }, (_, i) => fromSlot + i);
  const atEpochMs = slots.map((slot) => slotEpochMs(nominal.grid, slot));
  const points = {
    epochMs: Float64Array.from(atEpochMs),
    lat: nominal.lat.slice(fromSlot),
    lon: nominal.lon.slice(fromSlot),
  };
  const states = new Map(knownAlong(forecast, points).map((known) => [known.quantity, known.states]));
  const areas: AreaCovered[] = [];
  const quantities = forecast.coverage.map((held) => ({
    ...quantityCovered(held, forecast),
    silent: silentSpans(states.get(held.quantity) ?? [], atEpochMs),
    neededBy: jobsInNeed(passage, held.quantity),
    areaIndex: areaIndexOf(areas, areaCovered(held)),
  }));
  const { lengthNm } = measureTrack(passage.track);
  const arrivalSlot = slots.find((slot) => (nominal.alongNm[slot] ?? 0) >= lengthNm - ARRIVED_NM);
  const everySlots = Math.max(1, Math.floor(60 / nominal.grid.slotMin));
  const places = runningOn(slots.map((slot) => ({ lat: nominal.lat[slot] ?? 0, lon: nominal.lon[slot] ?? 0 })));
  return {
    fromEpochMs: slotEpochMs(nominal.grid, fromSlot),
    planEndEpochMs: slotEpochMs(nominal.grid, of.untilSlot),
    endEpochMs: slotEpochMs(nominal.grid, nominal.grid.slotCount - 1),
    arrivesEpochMs: arrivalSlot === undefined ? null : slotEpochMs(nominal.grid, arrivalSlot),
    leftNm: Math.max(0, lengthNm - (nominal.alongNm.at(-1) ?? 0)),
    way: places
      .map((place, i) => ({ ...place, atEpochMs: atEpochMs[i] ?? Number.NaN }))
      .filter((_, i) => i % everySlots === 0 || i === places.length - 1),
    quantities,
    areas,
    files: filesCovered(of.files),
  };
}

/** Nearer to the end of the track than this she is there. */
const ARRIVED_NM = 0.01;

function areaIndexOf(areas: AreaCovered[], area: AreaCovered): number {
  const key = JSON.stringify(area);
  const known = areas.findIndex((other) => JSON.stringify(other) === key);
  return known >= 0 ? known : areas.push(area) - 1;
}

function quantityCovered(held: QuantityCoverage, forecast: Forecast): Pick<QuantityCovered, 'id' | 'name' | 'runs'> {
  const series = forecast.series.get(held.quantity) ?? new Map<string, Series>();
  const control = series.get(CONTROL_ID);
  const members = [...series].filter(([id]) => id !== CONTROL_ID).map(([, one]) => one);
  const run = (name: string, steps: readonly StepCovered[]): RunCovered => ({
    name,
    baseEpochMs: held.baseEpochMs,
    kind: held.kind,
    steps,
  });
  const ofControl = control === undefined ? [] : stepsOf(control);
  const ofMembers = stepsOfAll(members);
  const memberName = members.length === 1 ? 'one member' : `${members.length} members`;
  const runs =
    members.length === 0
      ? [run('one run', ofControl)]
      : control === undefined
        ? [run(memberName, ofMembers)]
        : sameSteps(ofMembers, ofControl)
          ? [run(`${memberName} and control`, ofMembers)]
          : [run(memberName, ofMembers), run('control', ofControl)];
  return { id: held.quantity, name: quantityOf(held.quantity).name, runs };
}

const stepsOf = ({ frames }: Series): StepCovered[] =>
  frames.map(({ startEpochMs, endEpochMs }) => ({ startEpochMs, endEpochMs }));

const keyOf = ({ startEpochMs, endEpochMs }: StepCovered): string => `${startEpochMs} ${endEpochMs}`;

/** Steps that every member has: what one lacks is not known of the ensemble. */
function stepsOfAll(members: readonly Series[]): StepCovered[] {
  const [first, ...others] = members.map(stepsOf);
  const keys = others.map((steps) => new Set(steps.map(keyOf)));
  return (first ?? []).filter((step) => keys.every((known) => known.has(keyOf(step))));
}

const sameSteps = (a: readonly StepCovered[], b: readonly StepCovered[]): boolean =>
  a.length === b.length && a.every((step, i) => keyOf(step) === keyOf(b[i] ?? step));

/** Instants of which nothing is known, joined; each span reaches to the known instants around it. */
function silentSpans(states: readonly KnownState[], atEpochMs: readonly number[]): SilentSpan[] {
  const spans: SilentSpan[] = [];
  let lastState: KnownState = 'known';
  states.forEach((why, i) => {
    const toEpochMs = atEpochMs[i + 1] ?? atEpochMs[i] ?? 0;
    const last = spans.at(-1);
    if (why !== 'known' && why === lastState && last !== undefined) spans[spans.length - 1] = { ...last, toEpochMs };
    else if (why !== 'known')
      spans.push({ fromEpochMs: atEpochMs[lastState === 'known' ? Math.max(0, i - 1) : i] ?? 0, toEpochMs, why });
    lastState = why;
  });
  return spans;
}
