import { firstFairPlan } from './first-fair.ts';
import { decisionsOf, improve, replay } from './improve.ts';
import type { Preparation } from './prepare.ts';
import { problemOf } from './prepare.ts';
import type { PlanningProblem } from './problem.ts';
import type { Report, ReportingWeather } from './report.ts';
import { probabilityOf, reportPlan } from './report.ts';
import type { SearchSettings } from './search.ts';
import { searchPlans } from './search.ts';
import type { Score } from './score.ts';
import { compareScores, scoreOf } from './score.ts';
import type { PlanState } from './state.ts';
import { isJobDone } from './state.ts';

/** The plan chosen, judged on fresh scenarios, and the one that takes each job's first fair window. */
export interface Solution {
  /** Limits as they stand. */
  readonly problem: PlanningProblem;
  readonly state: PlanState;
  readonly report: Report;
  readonly firstFair: { readonly state: PlanState; readonly report: Report };
  readonly labelCount: number;
}

export interface SolveSettings {
  readonly search: SearchSettings;
  /** Tries of the local search, per plan it starts from. */
  readonly improveTryCount: number;
  /** Plans it starts from. */
  readonly improveStartCount: number;
}

export const DEFAULT_SOLVE: SolveSettings = {
  search: { planCount: 40, plansPerKindCount: 6, startCount: 6 },
  improveTryCount: 3000,
  improveStartCount: 2,
};

/**
 * Searches plans against slightly tightened limits, so that the winner is not merely lucky on the scenarios it was
 * chosen on, and against the limits as they stand; chooses between them and the first-fair plan on fresh scenarios.
 * So the answer is never worse than taking each job's first fair window.
 */
export function solve(
  preparation: Preparation,
  reporting: ReportingWeather,
  settings: SolveSettings = DEFAULT_SOLVE,
): Solution {
  const problem = problemOf(preparation, 1);
  const ratio = planningLimitRatio(preparation);
  const tight = ratio === 1 ? problem : problemOf(preparation, ratio);
  const searches = (tight === problem ? [problem] : [tight, problem]).flatMap((searched) =>
    nestedHorizons(searched).map((untilSlot) => searchIn({ ...searched, untilSlot }, settings)),
  );
  const candidates = searches.map(({ state }) => state);
  const labelCount = searches.reduce((sum, searched) => sum + searched.labelCount, 0);
  const listed = preparation.passage.jobs.filter((job) => !preparation.excluded.has(job.id));
  const firstFairState = firstFairPlan(problem, listed);
  const firstFairStates = [firstFairPlan(problem, problem.jobs), firstFairState];
  const inProblem = candidates.flatMap((state) => replay(problem, decisionsOf(state)) ?? []);
  const judged = distinct([
    ...inProblem,
    ...firstFairStates.flatMap((state) => longestLegalBeginning(problem, state)),
  ]).map((state) => judge(preparation, problem, { state, reporting }));
  judged.sort((a, b) => compareScores(a.score, b.score));
  const [best] = judged;
  if (best === undefined) throw new Error('the empty plan is always legal');
  const firstFair = { state: firstFairState, report: reportPlan(preparation, firstFairState, reporting) };
  return { problem, state: best.state, report: best.report, firstFair, labelCount };
}

function planningLimitRatio(preparation: Preparation): number {
  const { settings } = preparation.passage;
  return preparation.weather.weights.length === 1 ? 1 : settings.planningLimitRatio;
}

/** The best plan of one search, improved as far as the tries go. */
function searchIn(problem: PlanningProblem, settings: SolveSettings): { state: PlanState; labelCount: number } {
  const searched = searchPlans(problem, settings.search);
  let { labelCount } = searched;
  const starts = searched.best.slice(0, settings.improveStartCount);
  const improved = distinct(starts.map((state) => withoutUnfinished(problem, state))).map((state) => {
    const better = improve(problem, state, settings.improveTryCount);
    labelCount += better.tryCount;
    return better;
  });
  improved.sort((a, b) => compareScores(a.score, b.score));
  const [best] = improved;
  if (best === undefined) throw new Error('the empty plan is always legal');
  return { state: best.state, labelCount };
}

/** Nearer ends that are searched as well: a broad beam over ten days may overlook what a narrow one over two finds. */
const NEARER_HORIZONS_H = [72] as const;

/** The problem's own end first, then those well before it. */
function nestedHorizons(problem: PlanningProblem): number[] {
  const slotsOf = (lengthH: number): number => Math.round((lengthH * 60) / problem.grid.slotMin);
  const nearer = NEARER_HORIZONS_H.map((lengthH) => problem.fromSlot + slotsOf(lengthH));
  return [problem.untilSlot, ...nearer.filter((slot) => slot < problem.untilSlot - slotsOf(12))];
}

/** Leaves out what belongs to jobs the plan does not finish, where the rest stands without it. */
function withoutUnfinished(problem: PlanningProblem, state: PlanState): PlanState {
  const kept = decisionsOf(state).filter((decision) => {
    const job = problem.units[decision.unit]?.job;
    return job !== undefined && isJobDone(state, problem, job.id);
  });
  return replay(problem, kept) ?? state;
}

/** The longest beginning of a plan that enough scenarios of another problem hold together. */
function longestLegalBeginning(problem: PlanningProblem, state: PlanState): PlanState[] {
  const decisions = decisionsOf(state);
  for (let count = decisions.length; count >= 0; count--) {
    const beginning = replay(problem, decisions.slice(0, count));
    if (beginning !== null) return [withoutUnfinished(problem, beginning)];
  }
  return [];
}

/** Every plan once. */
function distinct(states: readonly PlanState[]): PlanState[] {
  return [...new Map(states.map((state) => [JSON.stringify(decisionsOf(state)), state])).values()];
}

interface Judged {
  readonly state: PlanState;
  readonly report: Report;
  readonly score: Score;
}

/** Score of a plan with the joint probability found on the fresh scenarios. */
function judge(
  preparation: Preparation,
  problem: PlanningProblem,
  of: { state: PlanState; reporting: ReportingWeather },
): Judged {
  const report = reportPlan(preparation, of.state, of.reporting);
  const score = scoreOf(problem, of.state);
  if (report.jointMask === null || score.jointStepCount < 0) return { state: of.state, report, score };
  const { probability } = probabilityOf(report.jointMask, report);
  const stepCount = Math.floor((probability * 100) / preparation.passage.settings.probabilityTolerancePoints + 1e-9);
  return { state: of.state, report, score: { ...score, jointStepCount: stepCount } };
}
