import type { Job } from '../jobs/index.ts';
import { weightOf } from '../windows/index.ts';
import { place } from './place.ts';
import type { PlanningProblem, Unit } from './problem.ts';
import type { Decision, PlanState } from './state.ts';
import { startOfPlan, placedInOrder } from './state.ts';

/**
 * What a list of windows leads to: each job, in the order of the list, takes the first start at which its own limits
 * hold with the wanted probability. Rest, gates, precedence and sail states are kept; what it costs the jobs after it
 * is not asked.
 *
 * @param jobs the list
 * @returns the plan; jobs without such a start are left out
 */
export function firstFairPlan(problem: PlanningProblem, jobs: readonly Job[]): PlanState {
  let decisions: Decision[] = [];
  let state = startOfPlan(problem);
  for (const job of jobs) {
    for (const unit of problem.units.filter((candidate) => candidate.job.id === job.id)) {
      for (let guard = 0; guard < MOST_SESSIONS && (state.leftMin[unit.index] ?? 0) > 0; guard++) {
        const next = firstFair(problem, decisions, unit);
        if (next === null) break;
        decisions = next.decisions;
        state = next.state;
      }
    }
  }
  return state;
}

const MOST_SESSIONS = 40;

function firstFair(
  problem: PlanningProblem,
  decisions: readonly Decision[],
  unit: Unit,
): { decisions: Decision[]; state: PlanState } | null {
  const hopeful = hopefulStarts(problem, decisions, unit);
  for (let startSlot = problem.fromSlot; startSlot < problem.untilSlot; startSlot++) {
    for (let handling = 0; handling < unit.handlings.length; handling++) {
      if (!hopeful(handling, startSlot)) continue;
      const tried = [...decisions, { unit: unit.index, handling, startSlot }].toSorted(
        (a, b) => a.startSlot - b.startSlot || a.unit - b.unit,
      );
      const state = replayFreely(problem, tried);
      if (state !== null && isFair(problem, state, { unit: unit.index, startSlot })) return { decisions: tried, state };
    }
  }
  return null;
}

/** How near a start must come to fair on the voyage as planned so far to be worth trying exactly. */
const HOPEFUL_RATIO = 0.7;

/** A quick look before the exact one: the miles the entry itself moves the boat change little within an hour. */
function hopefulStarts(
  problem: PlanningProblem,
  decisions: readonly Decision[],
  unit: Unit,
): (handlingIndex: number, startSlot: number) => boolean {
  const state = replayFreely(problem, decisions);
  const lagNm = state?.lagNm ?? 0;
  const leftMin = state?.leftMin[unit.index] ?? unit.totalWorkMin;
  const workMin = Math.min(leftMin, unit.block.session?.longestMin ?? Infinity);
  const tables = unit.handlings.map((handling) =>
    handling.sailStates
      .filter((id) => unit.sailStates.length === 0 || unit.sailStates.includes(id))
      .map((sailStateId) =>
        problem.tableFor(unit, { handling, sailStateId, workMin, resumeMin: 0, tiredRatio: 1, lagNm }),
      ),
  );
  return (handlingIndex, startSlot) =>
    (tables[handlingIndex] ?? []).some((table) =>
      [-6, 0, 6].some((by) => (table.weight[startSlot + by] ?? 0) >= HOPEFUL_RATIO * problem.neededWeight),
    );
}

/** Carries decisions out whatever becomes of them jointly. */
export function replayFreely(problem: PlanningProblem, decisions: readonly Decision[]): PlanState | null {
  let state = startOfPlan(problem);
  for (const decision of decisions) {
    const placement = place(problem, state, decision);
    if (!placement.ok) return null;
    state = placement.state;
  }
  return state;
}

function isFair(problem: PlanningProblem, state: PlanState, entry: { unit: number; startSlot: number }): boolean {
  const placed = placedInOrder(state).find(
    (candidate) => candidate.unit === entry.unit && candidate.startSlot === entry.startSlot,
  );
  return placed !== undefined && weightOf(placed.mask, problem.weights) >= problem.neededWeight - 1e-6;
}
