import type { Job } from '../jobs/index.ts';
import { weightOf } from '../windows/index.ts';
import { place } from './place.ts';
import type { PlanningProblem, Unit, UnitWork } from './problem.ts';
import type { Decision, PlanState } from './state.ts';
import { placedInOrder, startOfPlan } from './state.ts';

/**
 * What a careful reader of a list of windows does: each job, in the order of the list, takes the start at which its own
 * limits hold with the highest probability that what is placed already leaves possible, at least the wanted one. Rest,
 * gates, precedence and sail states are kept; what it costs the jobs after it is not asked.
 *
 * @param jobs the list
 * @returns the plan; jobs without such a start are left out
 */
export function bestWindowPlan(problem: PlanningProblem, jobs: readonly Job[]): PlanState {
  let plan: Plan = { decisions: [], states: [startOfPlan(problem)] };
  for (const job of jobs) {
    for (const unit of problem.units.filter((candidate) => candidate.job.id === job.id)) {
      for (let guard = 0; guard < MOST_SESSIONS && (endOf(plan).leftMin[unit.index] ?? 0) > 0; guard++) {
        const next = bestStart(problem, plan, unit);
        if (next === null) break;
        plan = next;
      }
    }
  }
  return endOf(plan);
}

const MOST_SESSIONS = 40;

interface Plan {
  /** In the order of time. */
  readonly decisions: readonly Decision[];
  /** Before the first of them, and after each. */
  readonly states: readonly [PlanState, ...PlanState[]];
}

const endOf = ({ states }: Plan): PlanState => states.at(-1) ?? states[0];

/**
 * Starts are tried from the one that looks best on the voyage as planned so far; the search ends when none that is left
 * looks as good as what has been found.
 */
function bestStart(problem: PlanningProblem, plan: Plan, unit: Unit): Plan | null {
  let best: { weight: number; plan: Plan } | null = null;
  for (const { decision, looksWeight } of rankedStarts(problem, endOf(plan), unit)) {
    if (looksWeight < (best?.weight ?? NEARLY_RATIO * problem.neededWeight)) break;
    const tried = placedWith(problem, plan, decision);
    if (tried === null || tried.weight < problem.neededWeight - 1e-6) continue;
    if (best === null || tried.weight > best.weight) best = tried;
  }
  return best?.plan ?? null;
}

/** How near a start must look to the wanted weight to be tried: the entry's own miles and tiredness may change a little. */
const NEARLY_RATIO = 0.8;

/** Starts under all handlings, the likeliest first, of the same the earlier. */
function rankedStarts(
  problem: PlanningProblem,
  state: PlanState,
  unit: Unit,
): { readonly decision: Decision; readonly looksWeight: number }[] {
  const leftMin = state.leftMin[unit.index] ?? unit.totalWorkMin;
  const workMin = Math.min(leftMin, unit.block.session?.longestMin ?? Infinity);
  const starts = unit.handlings.flatMap((handling, index) => {
    const work = { handling, workMin, resumeMin: 0, tiredRatio: 1, lagNm: state.lagNm };
    const tables = sailStatesOf(unit, handling.sailStates).map((sailStateId) =>
      problem.tableFor(unit, { ...work, sailStateId } satisfies UnitWork),
    );
    return Array.from({ length: problem.untilSlot - problem.fromSlot }, (_, k) => {
      const startSlot = problem.fromSlot + k;
      const looksWeight = Math.max(0, ...tables.map((table) => table.weight[startSlot] ?? 0));
      return { decision: { unit: unit.index, handling: index, startSlot }, looksWeight };
    });
  });
  return starts.toSorted((a, b) => b.looksWeight - a.looksWeight || a.decision.startSlot - b.decision.startSlot);
}

const sailStatesOf = (unit: Unit, handlingStates: readonly string[]): readonly string[] =>
  handlingStates.filter((id) => unit.sailStates.length === 0 || unit.sailStates.includes(id));

/** The plan with one more decision in its place in time, and the weight of the scenarios its entry holds in; null: refused. */
function placedWith(problem: PlanningProblem, before: Plan, decision: Decision): { weight: number; plan: Plan } | null {
  const decisions = [...before.decisions, decision].toSorted((a, b) => a.startSlot - b.startSlot || a.unit - b.unit);
  const index = decisions.indexOf(decision);
  const [first, ...others] = before.states;
  // What comes before it in time is as it was.
  const plan = { decisions, states: [first, ...others.slice(0, index)] satisfies Plan['states'] };
  for (const one of decisions.slice(index)) {
    const placement = place(problem, endOf(plan), one);
    if (!placement.ok) return null;
    plan.states.push(placement.state);
  }
  const own = placedInOrder(endOf(plan)).find(
    ({ unit, startSlot }) => unit === decision.unit && startSlot === decision.startSlot,
  );
  return own === undefined ? null : { weight: weightOf(own.mask, problem.weights), plan };
}
