import type { Handling } from '../boat/index.ts';
import { fullMask } from '../windows/index.ts';
import type { PersonAtSlot, PlanningProblem, SlotSleep, Unit } from './problem.ts';
import { overAt } from './wait-table.ts';

/** One choice of a plan: this unit (or a session of it), in this way, from this slot. */
export interface Decision {
  readonly unit: number;
  readonly handling: number;
  readonly startSlot: number;
}

/** A decision carried out on the nominal voyage. */
export interface Placed extends Decision {
  /** Before the start, to settle the boat under the handling. */
  readonly settleSlots: number;
  readonly endSlot: number;
  readonly referenceSlots: number;
  readonly plannedMin: number;
  readonly workMin: number;
  /** False: a session that leaves work over. */
  readonly finishes: boolean;
  readonly resumeMin: number;
  readonly tiredRatio: number;
  readonly sailStateId: string;
  readonly lagNm: number;
  /** Scenarios in which it stays inside every known limit. */
  readonly mask: Uint32Array;
  readonly unknownBits: number;
  readonly kssStart: number;
  readonly kssEnd: number;
}

export interface PlacedList {
  readonly placed: Placed;
  readonly earlier: PlacedList | null;
}

/** A plan so far: what has been placed, and everything that follows for what may come next. */
export interface PlanState {
  /** Hands are free from here. */
  readonly slot: number;
  readonly lagNm: number;
  readonly sailStateId: string;
  /** Scenarios in which every unconditional entry holds. */
  readonly mask: Uint32Array;
  readonly person: PersonAtSlot;
  /** Sleep the plan counts on; free hours are slept in besides. */
  readonly plannedSleeps: readonly SlotSleep[];
  /** Minutes of work left per unit. */
  readonly leftMin: Float64Array;
  /** Slot each unit was finished at, -1 while it is not. */
  readonly finishedSlot: Int32Array;
  /** 1 where a unit was placed with a limit unknown. */
  readonly conditional: Uint8Array;
  readonly placed: PlacedList | null;
  readonly placedCount: number;
  /** Exposure so far (see score). */
  readonly exposurePoints: number;
}

export function startOfPlan(problem: PlanningProblem): PlanState {
  const unitCount = problem.units.length;
  return {
    slot: problem.fromSlot,
    lagNm: 0,
    sailStateId: problem.startSailStateId,
    mask: fullMask(problem.weights.length),
    person: problem.start,
    plannedSleeps: [],
    leftMin: Float64Array.from(problem.units, (unit) => unit.totalWorkMin),
    finishedSlot: new Int32Array(unitCount).fill(-1),
    conditional: new Uint8Array(unitCount),
    placed: null,
    placedCount: 0,
    exposurePoints: 0,
  };
}

/** Entries in the order of time. */
export function placedInOrder(state: PlanState): Placed[] {
  const list: Placed[] = [];
  for (let item = state.placed; item !== null; item = item.earlier) list.push(item.placed);
  return list.toReversed();
}

/** True when every unit of a job is finished; a job that is none of the problem's never is. */
export function isJobDone(state: PlanState, problem: PlanningProblem, jobId: string): boolean {
  const own = problem.units.filter((unit) => unit.job.id === jobId);
  return own.length > 0 && own.every((unit) => (state.finishedSlot[unit.index] ?? -1) >= 0);
}

/** True when some unit of a job was placed with a limit unknown. */
export function isJobConditional(state: PlanState, problem: PlanningProblem, jobId: string): boolean {
  return problem.units.some((unit) => unit.job.id === jobId && state.conditional[unit.index] === 1);
}

/** First slot a unit may start in: its predecessors finished and waited for, rest between sessions kept; null: not yet. */
export function readySlot(state: PlanState, problem: PlanningProblem, unit: Unit): number | null {
  let slot = state.slot;
  for (const { unit: before, waitSlots } of unit.predecessors) {
    const finished = state.finishedSlot[before] ?? -1;
    if (finished < 0) return null;
    slot = Math.max(slot, overAt(waitSlots, finished));
  }
  const last = state.placed?.placed;
  if (last?.unit === unit.index && unit.block.session !== null) {
    slot = Math.max(slot, last.endSlot + Math.ceil(unit.block.session.restMin / problem.grid.slotMin));
  }
  return slot;
}

export function handlingOf(problem: PlanningProblem, decision: Decision): Handling {
  const handling = problem.units[decision.unit]?.handlings[decision.handling];
  if (handling === undefined) throw new Error('a decision names a handling its unit does not have');
  return handling;
}

/** The choices a plan was made of. */
export function decisionsOf(state: PlanState): Decision[] {
  return placedInOrder(state).map(({ unit, handling, startSlot }) => ({ unit, handling, startSlot }));
}
