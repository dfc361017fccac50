import type { Handling } from '../boat/index.ts';
import type { Block, Job } from '../jobs/index.ts';
import { blockMinutes, blocksOf } from '../jobs/index.ts';
import type { Passage } from '../passage/index.ts';
import {
  bodyClockAlong,
  circadianC,
  gateFor,
  lapsesRhythm,
  startState,
  strictestGate,
  ultradianU,
} from '../person/index.ts';
import type { SlotGrid } from '../time/index.ts';
import { MS_PER_H, MS_PER_MIN, slotEpochMs, slotGrid } from '../time/index.ts';
import type { MeasuredTrack } from '../track/index.ts';
import { measureTrack } from '../track/index.ts';
import type { Course, LagTable, SampleWeather } from '../voyage/index.ts';
import { lagTable, sailNominal } from '../voyage/index.ts';
import type { LookoutSettings, SparseTable, TableSettings } from '../windows/index.ts';
import { blockSailStates, sparseTable, totalWeight, wholeBlockMin } from '../windows/index.ts';
import type { NearestMiss } from './plan.ts';
import { ownPaceRatios } from './own-pace.ts';
import { excludedJobs } from './readiness.ts';
import { type AirAlong, waitSlotsOf } from './wait-table.ts';
import type { PersonAtSlot, PersonFacts, PlanningProblem, SleepList, Unit, UnitWork } from './problem.ts';

/** The weather a plan is made on. */
export interface PlanningWeather {
  readonly baseEpochMs: number;
  readonly endEpochMs: number;
  readonly weights: Int32Array;
  readonly sampleScenarios: SampleWeather;
  /** One scenario: the run the boat's own progress is reckoned with. */
  readonly sampleReference: SampleWeather;
}

/** A passage made ready for planning: everything that does not depend on the plan. */
export interface Preparation {
  readonly passage: Passage;
  readonly weather: PlanningWeather;
  readonly grid: SlotGrid;
  readonly fromSlot: number;
  /** Every entry of a plan ends by this slot. */
  readonly untilSlot: number;
  readonly track: MeasuredTrack;
  readonly nominal: Course;
  readonly lag: LagTable;
  readonly units: readonly Unit[];
  /** Jobs that no weather can help: parts short, no handling, or after such a job. */
  readonly excluded: ReadonlyMap<string, NearestMiss>;
  readonly person: PersonFacts;
  readonly start: PersonAtSlot;
}

const LONGEST_HORIZON_H = 240;
/** Room behind the last entry's end for its reference period. */
const REFERENCE_ROOM_H = 24;

/** Lays out slots, sails the nominal voyage, divides jobs into units and reads the sleep record. */
export function prepare(passage: Passage, weather: PlanningWeather, nowEpochMs: number): Preparation {
  const { settings } = passage;
  const beginEpochMs = Math.min(passage.start.epochMs, nowEpochMs);
  const horizonH = Math.min(settings.horizonH ?? LONGEST_HORIZON_H, LONGEST_HORIZON_H);
  const toEpochMs = Math.min(weather.endEpochMs, nowEpochMs + LONGEST_HORIZON_H * MS_PER_H);
  const grid = slotGrid({ fromEpochMs: Math.max(passage.start.epochMs, beginEpochMs), toEpochMs }, settings.slotMin);
  const fromSlot = Math.max(0, Math.ceil((nowEpochMs - grid.firstEpochMs) / (settings.slotMin * MS_PER_MIN)));
  const untilSlot = Math.min(grid.slotCount - 1, fromSlot + Math.floor((horizonH * 60) / settings.slotMin));
  const track = measureTrack(passage.track);
  const sailing = { boat: passage.boat, sampleReference: weather.sampleReference };
  const nominal = sailNominal({ ...sailing, sailStateId: passage.start.sailStateId, track, grid });
  const lag = lagTable({
    ...sailing,
    sampleScenarios: weather.sampleScenarios,
    deckHeightM: settings.deckHeightM,
    nominal,
    track,
    lateSlotCount: untilSlot + Math.ceil((REFERENCE_ROOM_H * 60) / settings.slotMin),
  });
  const excluded = excludedJobs(passage);
  const jobs = inCanonicalOrder(openJobs(passage)).filter((job) => !excluded.has(job.id));
  const person = personFacts(passage, nominal);
  return {
    passage,
    weather,
    grid,
    fromSlot,
    untilSlot,
    track,
    nominal,
    lag,
    excluded,
    units: unitsOf(jobs, passage, { airC: lag.conditionsAt(0).weather.airC, slotMin: settings.slotMin }),
    person,
    start: personAtStart(passage, nominal, { fromSlot, person }),
  };
}

/** The planning problem of a preparation, with limits tightened to `limitRatio` of themselves. */
export function problemOf(preparation: Preparation, limitRatio: number): PlanningProblem {
  const { passage, weather, units, lag } = preparation;
  const settings = tableSettings(passage, weather, limitRatio);
  const total = totalWeight(weather.weights);
  return {
    grid: preparation.grid,
    fromSlot: preparation.fromSlot,
    untilSlot: preparation.untilSlot,
    lightBefore: lightBefore(lag.conditionsAt(0).light),
    jobs: inCanonicalOrder(openJobs(passage)).filter((job) => !preparation.excluded.has(job.id)),
    units,
    startSailStateId: passage.start.sailStateId,
    start: preparation.start,
    person: preparation.person,
    weights: weather.weights,
    neededWeight: passage.settings.wantedProbability * total,
    toleranceWeight: Math.max(1, (passage.settings.probabilityTolerancePoints / 100) * total),
    lag,
    settings,
    orders: passage.orders,
    ...keepingTables(lag, settings),
  };
}

const keptLookout = new WeakMap<Passage['settings'], LookoutSettings>();

/** One object for one passage: what is worked out with it is kept by it. */
function lookoutSettings(settings: Passage['settings']): LookoutSettings {
  const { eyeHeightM, otherShipKn, lookoutLongestMin } = settings;
  const lookout = keptLookout.get(settings) ?? { eyeHeightM, otherShipKn, longestMin: lookoutLongestMin };
  keptLookout.set(settings, lookout);
  return lookout;
}

export function tableSettings(
  passage: Passage,
  weather: Pick<PlanningWeather, 'weights' | 'baseEpochMs'>,
  limitRatio: number,
): TableSettings {
  return {
    weights: weather.weights,
    baseEpochMs: weather.baseEpochMs,
    limitRatio,
    contingencyShare: passage.settings.contingencyShare,
    contingencyLeastMin: passage.settings.contingencyLeastMin,
    steadyingWindRule: passage.settings.steadyingWindRule,
    ownPaceRatioOf: ownPaceRatios(passage),
    gloves: passage.watchkeeper.gloves,
    timeFactors: passage.watchkeeper.timeFactors,
    lookout: lookoutSettings(passage.settings),
  };
}

function lightBefore(light: Uint8Array): Int32Array {
  const sums = new Int32Array(light.length + 1);
  for (let i = 0; i < light.length; i++) sums[i + 1] = (sums[i] ?? 0) + ((light[i] ?? 3) <= 1 ? 1 : 0);
  return sums;
}

function keepingTables(lag: LagTable, settings: TableSettings): Pick<PlanningProblem, 'tableFor' | 'startFor'> {
  const kept = new Map<string, SparseTable>();
  const sparse = (unit: Unit, work: UnitWork): SparseTable => {
    const how = `${work.handling.id} ${work.sailStateId} ${work.workMin.toFixed(2)} ${work.resumeMin} ${work.tiredRatio}`;
    const key = `${unit.index} ${lag.indexOf(work.lagNm)} ${how}`;
    let table = kept.get(key);
    if (!table) {
      table = sparseTable({ ...work, block: unit.block }, lag.conditionsAt(work.lagNm), settings);
      kept.set(key, table);
    }
    return table;
  };
  return {
    tableFor: (unit, work) => sparse(unit, work).whole(),
    startFor: (unit, work, startSlot) => sparse(unit, work).at(startSlot),
  };
}

/** Jobs still to be done. */
function openJobs({ jobs, orders }: Passage): Job[] {
  return jobs.filter((job) => orders.jobs.get(job.id)?.isDone !== true);
}

function unitsOf(jobs: readonly Job[], passage: Passage, air: AirAlong): Unit[] {
  const lastUnit = new Map<string, number>();
  const units: Omit<Unit, 'predecessors'>[] = [];
  for (const job of jobs) {
    const order = passage.orders.jobs.get(job.id);
    let doneMin = order?.doneMin ?? 0;
    for (const whole of blocksOf(job)) {
      const block = withoutDone(whole, order?.doneStepIds ?? []);
      if (block === null) continue;
      const index = units.length;
      const gate = strictestGate(block.steps.map((step) => gateFor(step, passage.watchkeeper.gates)));
      const handlings = handlingsOf(job, passage.boat.handlings);
      const sailStates = blockSailStates(job, whole.index);
      const totalWorkMin = leftOf(plannedWorkMin(block), doneMin);
      const waitSlots = waitSlotsOf(block.waitAfter, air);
      units.push({ index, job, block, gate, handlings, sailStates, totalWorkMin, waitSlots });
      lastUnit.set(job.id, index);
      doneMin = 0;
    }
  }
  return units.map((unit) => ({ ...unit, predecessors: predecessorsOf(unit, units, lastUnit) }));
}

/** Work that has taken longer than planned is not over for that: a little is always left. */
const LEAST_LEFT_MIN = 10;

const leftOf = (workMin: number, doneMin: number): number =>
  doneMin === 0 ? workMin : Math.max(LEAST_LEFT_MIN, workMin - doneMin);

/** What is left of a block once some of its steps are done; null: nothing. */
function withoutDone(block: Block, doneStepIds: readonly string[]): Block | null {
  const [first, ...rest] = block.steps.filter((step) => !doneStepIds.includes(step.id));
  if (first === undefined) return null;
  return rest.length + 1 === block.steps.length ? block : { ...block, steps: [first, ...rest] };
}

/** All work of a unit: the P50 of a core; of work in sessions the P80, since a slow session is made up in the next. */
function plannedWorkMin(block: Unit['block']): number {
  return block.session === null ? wholeBlockMin(block) : blockMinutes(block).p80Min;
}

function predecessorsOf(
  unit: Omit<Unit, 'predecessors'>,
  units: readonly Omit<Unit, 'predecessors'>[],
  lastUnit: ReadonlyMap<string, number>,
): Unit['predecessors'] {
  const before = units[unit.index - 1];
  const indices =
    before?.job.id === unit.job.id ? [before.index] : unit.job.after.flatMap((id) => lastUnit.get(id) ?? []);
  return indices.map((index) => ({ unit: index, waitSlots: units[index]?.waitSlots ?? 0 }));
}

function handlingsOf(job: Job, handlings: readonly Handling[]): Handling[] {
  return job.handlings.flatMap((id) => handlings.filter((handling) => handling.id === id));
}

/** The more important first; the same importance by id. */
const byPriority = (a: Job, b: Job): number =>
  b.priorityWeight - a.priorityWeight || (a.id < b.id ? -1 : Number(a.id > b.id));

/** Jobs after all they wait for, the more important first: the order of the list must not decide a plan. */
function inCanonicalOrder(jobs: readonly Job[]): Job[] {
  const waiting = jobs.toSorted(byPriority);
  const ordered: Job[] = [];
  while (waiting.length > 0) {
    const next = waiting.findIndex((job) => !job.after.some((id) => waiting.some((other) => other.id === id)));
    const [job] = waiting.splice(Math.max(0, next), 1);
    if (job !== undefined) ordered.push(job);
  }
  return ordered;
}

function personFacts(passage: Passage, nominal: Course): PersonFacts {
  const points = Array.from(nominal.lon, (lon, i) => ({ epochMs: slotEpochMs(nominal.grid, i), lon }));
  const todH = bodyClockAlong(points, passage.watchkeeper.bodyClockLagMin);
  return {
    watchkeeper: passage.watchkeeper,
    todH,
    rhythm: todH.map((hour) => circadianC(hour) + ultradianU(hour)),
    lapsesRhythm: todH.map(lapsesRhythm),
    longestSleepSlots: Math.max(2, Math.floor(passage.settings.longestSleepMin / passage.settings.slotMin)),
  };
}

function personAtStart(passage: Passage, nominal: Course, at: { fromSlot: number; person: PersonFacts }): PersonAtSlot {
  const epochMs = slotEpochMs(nominal.grid, at.fromSlot);
  const state = startState(passage.watchkeeper, {
    epochMs,
    lon: nominal.lon[at.fromSlot] ?? passage.start.position.lon,
  });
  const slotAt = (instantEpochMs: number): number =>
    Math.round((instantEpochMs - nominal.grid.firstEpochMs) / (nominal.grid.slotMin * MS_PER_MIN));
  let sleeps: SleepList | null = null;
  for (const sleep of state.recentSleeps) {
    sleeps = { sleep: { fromSlot: slotAt(sleep.startEpochMs), toSlot: slotAt(sleep.endEpochMs) }, earlier: sleeps };
  }
  return {
    slot: at.fromSlot,
    s: state.s,
    unified: state.unified,
    awakeSinceSlot: slotAt(state.awakeSinceEpochMs),
    lastSleepMin: state.lastSleepMin,
    wokeTodH: state.wokeTodH,
    sleeps,
  };
}
