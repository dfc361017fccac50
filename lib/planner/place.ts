import { gateFindings, kssFromAlertness, tiredFactorRatio } from '../person/index.ts';
import { intersect, weightOf } from '../windows/index.ts';
import type { PersonAtSlot, PlanningProblem, Unit, UnitWork } from './problem.ts';
import { bufferSlotsFor, sleptSlots, spendGap, stayAwake } from './rest.ts';
import { allowedSpan } from './model/start-rules.ts';
import { exposureOf } from './score.ts';
import type { Decision, Placed, PlanState } from './state.ts';
import { handlingOf, readySlot } from './state.ts';

/** Why a decision cannot be carried out. */
export type Refusal = 'precedence' | 'sail-state' | 'alertness' | 'horizon' | 'weather' | 'orders';

export type Placement =
  | { readonly ok: true; readonly state: PlanState; readonly placed: Placed }
  | { readonly ok: false; readonly refusal: Refusal };

const refused = (refusal: Refusal): Placement => ({ ok: false, refusal });

/**
 * Carries out one decision: rests until its start, sails there, checks gates and weather, works, and books what follows.
 *
 * Refuses what breaks a hard rule. Weather is refused only when no scenario is left; whether enough are left is for the
 * solver to judge.
 */
export function place(problem: PlanningProblem, state: PlanState, decision: Decision): Placement {
  const unit = problem.units[decision.unit];
  if (unit === undefined) throw new Error('a decision names a unit the problem does not have');
  const ready = readySlot(state, problem, unit);
  if (decision.startSlot >= problem.untilSlot) return refused('horizon');
  if (ready === null || decision.startSlot < ready || (state.leftMin[unit.index] ?? 0) <= 0)
    return refused('precedence');
  const handling = handlingOf(problem, decision);
  if (!canWorkIn(unit, state.sailStateId, handling.sailStates)) return refused('sail-state');
  const settleSlots = slotsToSettle(problem, state, decision);
  if (decision.startSlot - settleSlots < state.slot) return refused('precedence');

  const person = restUntil(problem, state.person, { unit, startSlot: decision.startSlot });
  const kssStart = kssAt(problem, person);
  const tiredRatio = tiredFactorRatio(kssStart, problem.person.watchkeeper.timeFactors);
  if (tiredRatio === null || !passesGate(problem, unit, person)) return refused('alertness');

  const lagNm =
    state.lagNm +
    problem.lag.lostNm(state.lagNm, {
      handling: null,
      sailStateId: state.sailStateId,
      fromSlot: state.slot,
      toSlot: decision.startSlot,
    });
  const work = { handling, sailStateId: state.sailStateId, lagNm, tiredRatio, ...portion(unit, state) };
  return workIt(problem, { state, decision, unit, person, kssStart, work, settleSlots });
}

/** The boat is settled already when the work before was done under the same handling and ends where this begins. */
function slotsToSettle(problem: PlanningProblem, state: PlanState, decision: Decision): number {
  const handling = handlingOf(problem, decision);
  const last = state.placed?.placed;
  const isSettled =
    last !== undefined && last.endSlot === decision.startSlot && handlingOf(problem, last).id === handling.id;
  return isSettled ? 0 : Math.ceil(handling.settleMin / problem.grid.slotMin);
}

interface Working {
  readonly state: PlanState;
  readonly decision: Decision;
  readonly unit: Unit;
  readonly person: PersonAtSlot;
  readonly kssStart: number;
  readonly work: UnitWork;
  readonly settleSlots: number;
}

function workIt(problem: PlanningProblem, working: Working): Placement {
  const { unit, decision, work, state } = working;
  const table = problem.startFor(unit, work, decision.startSlot);
  const plannedMin = table.plannedMin[decision.startSlot] ?? Number.NaN;
  if (Number.isNaN(plannedMin)) return refused('horizon');
  const wordOffsetIndex = decision.startSlot * table.wordCount;
  const mask = table.masks.slice(wordOffsetIndex, wordOffsetIndex + table.wordCount);
  if (weightOf(mask, problem.weights) === 0) return refused('weather');
  const endSlot = decision.startSlot + Math.max(1, Math.ceil(plannedMin / problem.grid.slotMin - 1e-6));
  if (endSlot > problem.untilSlot) return refused('horizon');
  if (!allowedSpan(problem, unit, work.handling.id)(decision.startSlot, endSlot)) return refused('orders');
  const personAfter = stayAwake(working.person, endSlot, problem.grid.slotMin);
  if (!passesGate(problem, unit, personAfter)) return refused('alertness');
  const placed: Placed = {
    ...decision,
    settleSlots: working.settleSlots,
    endSlot,
    referenceSlots: table.referenceSlots[decision.startSlot] ?? 0,
    plannedMin,
    workMin: work.workMin,
    finishes: (state.leftMin[unit.index] ?? 0) - work.workMin < 1,
    resumeMin: work.resumeMin,
    tiredRatio: work.tiredRatio,
    sailStateId: state.sailStateId,
    lagNm: work.lagNm,
    mask,
    unknownBits: table.unknownBits[decision.startSlot] ?? 0,
    kssStart: working.kssStart,
    kssEnd: kssAt(problem, personAfter),
  };
  return { ok: true, placed, state: booked(problem, working, { placed, person: personAfter }) };
}

function booked(
  problem: PlanningProblem,
  working: Working,
  after: { placed: Placed; person: PersonAtSlot },
): PlanState {
  const { state, unit, work } = working;
  const { placed } = after;
  const leftMin = state.leftMin.slice();
  const finishedSlot = state.finishedSlot.slice();
  const left = (leftMin[unit.index] ?? 0) - work.workMin;
  const finished = placed.finishes;
  leftMin[unit.index] = finished ? 0 : left;
  if (finished) finishedSlot[unit.index] = placed.endSlot;
  const isConditional = placed.unknownBits !== 0;
  const conditional = state.conditional.slice();
  if (isConditional) conditional[unit.index] = 1;
  const lostNm = problem.lag.lostNm(work.lagNm, {
    handling: work.handling,
    sailStateId: state.sailStateId,
    fromSlot: placed.startSlot,
    toSlot: placed.endSlot,
  });
  return {
    slot: placed.endSlot,
    lagNm: work.lagNm + lostNm,
    sailStateId: (finished ? unit.block.sailStateAfter : null) ?? state.sailStateId,
    mask: isConditional ? state.mask : intersect(state.mask, placed.mask),
    person: after.person,
    plannedSleeps: state.plannedSleeps,
    leftMin,
    finishedSlot,
    conditional,
    placed: { placed, earlier: state.placed },
    placedCount: state.placedCount + 1,
    exposurePoints: state.exposurePoints + exposureOf(problem, unit, placed),
  };
}

/** The part of a unit done in one go: all of it, or a session. */
function portion(unit: Unit, state: PlanState): { workMin: number; resumeMin: number } {
  const leftMin = state.leftMin[unit.index] ?? 0;
  const { session } = unit.block;
  if (session === null) return { workMin: leftMin, resumeMin: 0 };
  const resumeMin = leftMin < unit.totalWorkMin ? session.resumeMin : 0;
  const longestMin = session.longestMin - resumeMin;
  // A rest shorter than the least useful session would be left over: share the work between two instead.
  const restMin = leftMin - longestMin;
  if (restMin <= 0) return { workMin: leftMin, resumeMin };
  return { workMin: restMin < session.leastUsefulMin ? leftMin / 2 : longestMin, resumeMin };
}

function canWorkIn(unit: Unit, sailStateId: string, handlingStates: readonly string[]): boolean {
  const isAllowed = unit.sailStates.length === 0 || unit.sailStates.includes(sailStateId);
  return isAllowed && handlingStates.includes(sailStateId);
}

/** The person, rested by the usual policy, at the start of the work that comes next. */
export function restUntil(
  problem: PlanningProblem,
  person: PersonAtSlot,
  next: { unit: Unit; startSlot: number },
): PersonAtSlot {
  const { slotMin } = problem.grid;
  const bufferSlots = bufferSlotsFor(next.unit.gate.inertiaMultiplierRatio, slotMin);
  const isHardWorkNext = next.unit.gate.noLowHours;
  return spendGap(person, problem.person, { toSlot: next.startSlot, bufferSlots, slotMin, isHardWorkNext });
}

function kssAt(problem: PlanningProblem, person: PersonAtSlot): number {
  return kssFromAlertness(person.s + (problem.person.rhythm[person.slot] ?? 0));
}

function passesGate(problem: PlanningProblem, unit: Unit, person: PersonAtSlot): boolean {
  return gateFindings(gateStateAt(problem, person), unit.gate).length === 0;
}

/** What the gates ask about, at the person's slot. */
export function gateStateAt(
  problem: Pick<PlanningProblem, 'grid' | 'person'>,
  person: PersonAtSlot,
): Parameters<typeof gateFindings>[0] {
  const slotH = problem.grid.slotMin / 60;
  const { sleepEfficiencyRatio } = problem.person.watchkeeper;
  const sleptH = (windowH: number): number =>
    sleptSlots(person.sleeps, person.slot - windowH / slotH, person.slot) * slotH * sleepEfficiencyRatio;
  return {
    alertnessPoints: person.s + (problem.person.rhythm[person.slot] ?? 0),
    lapses: person.unified.s + (problem.person.lapsesRhythm[person.slot] ?? 0),
    todH: problem.person.todH[person.slot] ?? 0,
    awakeH: (person.slot - person.awakeSinceSlot) * slotH,
    lastSleepMin: person.lastSleepMin,
    wokeTodH: person.wokeTodH,
    slept24H: sleptH(24),
    slept48H: sleptH(48),
  };
}
