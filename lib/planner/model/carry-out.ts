import { kssFromAlertness } from '../../person/index.ts';
import type { ScheduleEntry, ScheduleSolution, WorkEntry } from '../../schedule/index.ts';
import { fullMask, intersect } from '../../windows/index.ts';
import type { PersonAtSlot, PlanningProblem, SlotSleep } from '../problem.ts';
import { exposureOf } from '../score.ts';
import type { Placed, PlacedList, PlanState } from '../state.ts';
import { LOOKOUT_MIN } from '../rest.ts';
import { timelineOf } from '../timeline.ts';
import { wholeSleep } from '../whole-sleep.ts';
import { lostNmSailing } from './sail-configs.ts';
import type { Model } from './schedule-problem.ts';
import type { ChoiceMeaning } from './unit-tasks.ts';

/** The search's entries as a plan on board: what is worked when, how, by whom in what state. */
export function carryOut(
  problem: PlanningProblem,
  model: Model,
  of: { entries: readonly ScheduleEntry[]; conditionalIds: ReadonlySet<string> },
): PlanState {
  const work = of.entries.filter((entry) => entry.kind === 'work');
  const bare = placedBare(problem, model, work);
  const plannedSleeps = wholeSleep(problem, { work: bare, plannedSleeps: sleepsOf(problem, of.entries) });
  const lookoutSlots = Math.ceil(LOOKOUT_MIN / problem.grid.slotMin);
  const timeline = timelineOf({
    start: problem.start,
    facts: problem.person,
    slotMin: problem.grid.slotMin,
    placed: bare,
    units: problem.units,
    plannedSleeps,
    lookoutSlots,
    toSlot: problem.untilSlot,
  });
  const placed = bare.map((entry, index) => ({
    ...entry,
    kssStart: kssOf(problem, timeline.atStarts[index]),
    kssEnd: kssOf(problem, timeline.atEnds[index]),
  }));
  return planState(problem, { placed, plannedSleeps, person: timeline.atEnd, conditionalIds: of.conditionalIds });
}

/** Sleep of a plan, on the slots of the passage. */
function sleepsOf(problem: PlanningProblem, entries: ScheduleSolution['entries']): SlotSleep[] {
  return entries.flatMap((entry) =>
    entry.kind === 'sleep'
      ? [{ fromSlot: entry.startSlot + problem.fromSlot, toSlot: entry.wokeSlot + problem.fromSlot }]
      : [],
  );
}

function meaningOf(model: Model, entry: WorkEntry): ChoiceMeaning {
  const choice = model.schedule.tasks[entry.task]?.choices[entry.choice];
  const meaning = choice === undefined ? undefined : model.meanings.get(choice);
  if (meaning === undefined) throw new Error('the search names a choice its problem does not have');
  return meaning;
}

type BarePlaced = Omit<Placed, 'kssStart' | 'kssEnd'>;

/** Entries with the miles lost reckoned as they are, not in whole quanta. */
function placedBare(problem: PlanningProblem, model: Model, work: readonly WorkEntry[]): BarePlaced[] {
  const placed: BarePlaced[] = [];
  let lagNm = 0;
  let slot = problem.fromSlot;
  let sailStateId = problem.startSailStateId;
  for (const entry of work) {
    const { unit, handlingIndex, work: how } = meaningOf(model, entry);
    const beginSlot = entry.beginSlot + problem.fromSlot;
    lagNm += lostNmSailing(problem, sailStateId, { fromSlot: slot, toSlot: beginSlot });
    const searchedNm = model.schedule.rowOfLag[entry.lag] ?? 0;
    const table = problem.startFor(unit, { ...how, lagNm: model.rowLagNm[searchedNm] ?? 0 }, beginSlot);
    const plannedMin = table.plannedMin[beginSlot] ?? Number.NaN;
    const endSlot = beginSlot + Math.max(1, Math.ceil(plannedMin / problem.grid.slotMin - 1e-6));
    placed.push({
      unit: unit.index,
      handling: handlingIndex,
      startSlot: beginSlot,
      settleSlots: entry.beginSlot - entry.startSlot,
      endSlot,
      referenceSlots: table.referenceSlots[beginSlot] ?? 0,
      plannedMin,
      workMin: how.workMin,
      finishes: entry.finishes,
      resumeMin: how.resumeMin,
      tiredRatio: how.tiredRatio,
      sailStateId: how.sailStateId,
      lagNm,
      mask: table.masks.slice(beginSlot * table.wordCount, (beginSlot + 1) * table.wordCount),
      unknownBits: table.unknownBits[beginSlot] ?? 0,
    });
    slot = entry.endSlot + problem.fromSlot;
    lagNm += problem.lag.lostNm(lagNm, {
      handling: how.handling,
      sailStateId: how.sailStateId,
      fromSlot: beginSlot,
      toSlot: slot,
    });
    sailStateId = (entry.finishes ? unit.block.sailStateAfter : null) ?? how.sailStateId;
  }
  return placed;
}

function kssOf(problem: PlanningProblem, person: PersonAtSlot | undefined): number {
  return person === undefined ? 0 : kssFromAlertness(person.s + (problem.person.rhythm[person.slot] ?? 0));
}

function planState(
  problem: PlanningProblem,
  of: {
    placed: readonly Placed[];
    plannedSleeps: readonly SlotSleep[];
    person: PersonAtSlot;
    conditionalIds: ReadonlySet<string>;
  },
): PlanState {
  const last = of.placed.at(-1);
  const lastUnit = problem.units[last?.unit ?? -1];
  const afterId = last?.finishes === true ? lastUnit?.block.sailStateAfter : null;
  return {
    slot: last?.endSlot ?? problem.fromSlot,
    lagNm: lagAfter(problem, last),
    sailStateId: afterId ?? last?.sailStateId ?? problem.startSailStateId,
    person: of.person,
    plannedSleeps: of.plannedSleeps,
    placedCount: of.placed.length,
    ...progressOf(problem, of.placed, of.conditionalIds),
  };
}

/** What is done of every unit, in which scenarios, and what it has cost. */
function progressOf(
  problem: PlanningProblem,
  entries: readonly Placed[],
  conditionalIds: ReadonlySet<string>,
): Pick<PlanState, 'leftMin' | 'finishedSlot' | 'conditional' | 'mask' | 'exposurePoints' | 'placed'> {
  const leftMin = Float64Array.from(problem.units, (unit) => unit.totalWorkMin);
  const finishedSlot = new Int32Array(problem.units.length).fill(-1);
  const conditional = new Uint8Array(problem.units.length);
  let mask = fullMask(problem.weights.length);
  let exposurePoints = 0;
  let list: PlacedList | null = null;
  for (const placed of entries) {
    list = { placed, earlier: list };
    const unit = problem.units[placed.unit];
    if (unit === undefined) continue;
    leftMin[unit.index] = placed.finishes ? 0 : (leftMin[unit.index] ?? 0) - placed.workMin;
    if (placed.finishes) finishedSlot[unit.index] = placed.endSlot;
    if (conditionalIds.has(unit.job.id)) conditional[unit.index] = 1;
    else mask = intersect(mask, placed.mask);
    exposurePoints += exposureOf(problem, unit, placed);
  }
  return { leftMin, finishedSlot, conditional, mask, exposurePoints, placed: list };
}

function lagAfter(problem: PlanningProblem, last: Placed | undefined): number {
  const handling = problem.units[last?.unit ?? -1]?.handlings[last?.handling ?? -1] ?? null;
  if (last === undefined) return 0;
  const { lagNm, sailStateId, startSlot, endSlot } = last;
  return lagNm + problem.lag.lostNm(lagNm, { handling, sailStateId, fromSlot: startSlot, toSlot: endSlot });
}
