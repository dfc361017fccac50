import type { PlanningProblem } from './problem.ts';
import { tryPlace } from './search.ts';
import type { Score } from './score.ts';
import { compareScores, scoreOf } from './score.ts';
import type { Decision, Placed, PlanState } from './state.ts';
import { placedInOrder, startOfPlan } from './state.ts';

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

export interface Improved {
  readonly state: PlanState;
  readonly score: Score;
  readonly tryCount: number;
}

const SHIFTS = [-12, -6, -3, -2, -1, 1, 2, 3, 6, 12] as const;

/**
 * Local search: shifts entries (alone, or with all that follow), exchanges neighbours, moves an entry next to any other, changes handlings, until nothing
 * helps or the budget of tries is spent. Budgeted by tries, not by time, so that two runs agree.
 */
export function improve(problem: PlanningProblem, start: PlanState, mostTryCount: number): Improved {
  let best = { state: start, score: scoreOf(problem, start) };
  let tryCount = 0;
  for (let improved = true; improved && tryCount < mostTryCount;) {
    improved = false;
    for (const candidate of neighbours(problem, placedInOrder(best.state))) {
      if (tryCount >= mostTryCount) break;
      tryCount += 1;
      const state = replay(problem, candidate);
      if (state === null) continue;
      const score = scoreOf(problem, state);
      if (compareScores(score, best.score) < 0) {
        best = { state, score };
        improved = true;
        break;
      }
    }
  }
  return { ...best, tryCount };
}

function* neighbours(problem: PlanningProblem, placed: readonly Placed[]): Generator<Decision[]> {
  const decisions = placed.map(({ unit, handling, startSlot }) => ({ unit, handling, startSlot }));
  for (const shiftSlots of SHIFTS)
    for (let k = 0; k < decisions.length; k++) yield shifted(decisions, { k, shiftSlots, all: false });
  for (const shiftSlots of SHIFTS)
    for (let k = 0; k < decisions.length; k++) yield shifted(decisions, { k, shiftSlots, all: true });
  for (let k = 0; k + 1 < decisions.length; k++) yield exchanged(decisions, k);
  for (let k = 0; k < decisions.length; k++) yield* relocated(placed, decisions, k);
  for (const [k, decision] of decisions.entries()) {
    const count = problem.units[decision.unit]?.handlings.length ?? 0;
    for (let handling = 0; handling < count; handling++) {
      if (handling !== decision.handling) yield decisions.with(k, { ...decision, handling });
    }
  }
}

/** Entry k right after, or right before, any other. */
function* relocated(placed: readonly Placed[], decisions: readonly Decision[], k: number): Generator<Decision[]> {
  const own = placed[k];
  const decision = decisions[k];
  if (own === undefined || decision === undefined) return;
  for (const other of placed) {
    if (other === own) continue;
    yield decisions.with(k, { ...decision, startSlot: other.endSlot });
    yield decisions.with(k, { ...decision, startSlot: other.startSlot - (own.endSlot - own.startSlot) });
  }
}

function shifted(decisions: readonly Decision[], move: { k: number; shiftSlots: number; all: boolean }): Decision[] {
  return decisions.map((decision, index) => {
    const moves = move.all ? index >= move.k : index === move.k;
    return moves ? { ...decision, startSlot: decision.startSlot + move.shiftSlots } : decision;
  });
}

/** Two neighbours change places: the later one starts where the earlier did, the earlier one as much later as fits. */
function exchanged(decisions: readonly Decision[], k: number): Decision[] {
  const [first, second] = [decisions[k], decisions[k + 1]];
  if (first === undefined || second === undefined) return [...decisions];
  return decisions.map((decision, index) => {
    if (index === k) return { ...second, startSlot: first.startSlot };
    return index === k + 1 ? { ...first, startSlot: second.startSlot } : decision;
  });
}
