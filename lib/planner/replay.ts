import { weightOf } from '../windows/index.ts';
import { place } from './place.ts';
import type { PlanningProblem } from './problem.ts';
import type { Decision, PlanState } from './state.ts';
import { placedInOrder, startOfPlan } from './state.ts';

/** The plan with one more entry; null when a rule refuses it or too few scenarios are left. */
export function tryPlace(problem: PlanningProblem, state: PlanState, decision: Decision): PlanState | null {
  const placement = place(problem, state, decision);
  if (!placement.ok) return null;
  const { placed } = placement;
  const weight =
    placed.unknownBits === 0 ? weightOf(placement.state.mask, problem.weights) : weightOf(placed.mask, problem.weights);
  return weight >= problem.neededWeight - 1e-6 ? placement.state : null;
}

/** Carries out decisions in order of time; null when one of them is refused or too few scenarios are left. */
export function replay(problem: PlanningProblem, decisions: readonly Decision[]): PlanState | null {
  let state: PlanState | null = startOfPlan(problem);
  for (const decision of decisions.toSorted((a, b) => a.startSlot - b.startSlot || a.unit - b.unit)) {
    state = tryPlace(problem, state, decision);
    if (state === null) return null;
  }
  return state;
}

/** The choices a plan was made of. */
export function decisionsOf(state: PlanState): Decision[] {
  return placedInOrder(state).map(({ unit, handling, startSlot }) => ({ unit, handling, startSlot }));
}
