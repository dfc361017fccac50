import type { Job } from '../jobs/index.ts';
import type { Rehearsal } from '../rehearsal/index.ts';
import { bestWindowPlan } from './best-window.ts';
import { jobsThatHold, maskOfJob, partOf } from './best-part.ts';
import { firstFairPlan, replayFreely } from './first-fair.ts';
import { publishedOverdue } from './overdue.ts';
import type { Plan } from './plan.ts';
import type { Preparation } from './prepare.ts';
import { problemOf } from './prepare.ts';
import type { PlanningProblem } from './problem.ts';
import type { Report, ReportingWeather } from './report.ts';
import { probabilityOf, reportPlan } from './report.ts';
import type { Searched, SearchSettings } from './search.ts';
import { DEFAULT_SEARCH, searchPlan } from './search.ts';
import type { Score } from './score.ts';
import { compareScores, doneWeights, scoreOf } from './score.ts';
import type { PlanState } from './state.ts';
import { rehearsalOf } from './rehearsed.ts';
import { pairedDifference, standingLeft, type StandingLeft } from './standing.ts';
import { decisionsOf, isJobDone, startOfPlan } from './state.ts';
import { totalWeight } from '../windows/index.ts';
import { ofHundred } from './words.ts';

/** The plan chosen, judged on fresh scenarios, and the one that takes each job's first fair window. */
export interface Solution {
  /** Limits as they stand. */
  readonly problem: PlanningProblem;
  readonly state: PlanState;
  readonly report: Report;
  readonly firstFair: { readonly state: PlanState; readonly report: Report };
  /** The search the plan came from; null: it is what is left of the first-fair plan. */
  readonly searched: Searched | null;
  readonly labelCount: number;
  /** What becomes of the plan when steps take as long as they take. */
  readonly rehearsal: Rehearsal | null;
  /** Whether the standing plan was kept; null: there was none to keep. */
  readonly standing: Plan['standing'];
}

export interface SolveSettings {
  readonly search: SearchSettings;
}

export const DEFAULT_SOLVE: SolveSettings = { search: DEFAULT_SEARCH };

/**
 * Searches the best plan against slightly tightened limits, so that it is not merely lucky on the scenarios it was chosen
 * on, and against the limits as they stand where the tightened ones leave a job out; chooses between them and the plans
 * that take each job's first fair or best window on fresh scenarios. So the answer is never worse than those.
 *
 * A plan that keeps the wanted probability only on the scenarios it was searched on is searched again with more asked
 * of it: what is published keeps it on fresh ones.
 */
export function solve(
  preparation: Preparation,
  reporting: ReportingWeather,
  settings: SolveSettings = DEFAULT_SOLVE,
  standing?: Plan,
): Solution {
  const problem = problemOf(preparation, 1);
  const searches = searchesOf(preparation, problem, { reporting, settings });
  const listed = preparation.passage.jobs.filter((job) => problem.jobs.some(({ id }) => id === job.id));
  const firstFairState = firstFairPlan(problem, listed);
  const judging = { reporting, settings };
  const judgeAll = (candidates: readonly Candidate[]): Judged[] =>
    distinct(candidates).map((candidate) => judge(preparation, problem, { ...candidate, reporting }));
  const fromSearch = judgeAll(searches.flatMap((searched) => searchedParts(preparation, searched, judging)));
  const leastWeight = Math.max(...fromSearch.map(({ score }) => score.priorityWeight));
  const isEnough = leastWeight > 0 && settings.search.isCancelled?.() === true;
  const fromLists = (isEnough ? [] : listedPlans(problem, listed, firstFairState))
    .filter((state) => doneWeights(problem, state).priorityWeight >= leastWeight)
    .map((state) => ({ state: listedPart(preparation, problem, { state, reporting }), searched: null }));
  const judged = [...fromSearch, ...judgeAll(fromLists)];
  judged.sort(byWorth);
  const [fresh] = judged;
  if (fresh === undefined) throw new Error('the empty plan is always legal');
  const kept =
    standing === undefined ? null : keepStanding(preparation, problem, { fresh, standing, searches, reporting });
  const best = kept?.judged ?? fresh;
  return {
    problem,
    state: best.state,
    report: best.report,
    firstFair: { state: firstFairState, report: reportPlan(preparation, firstFairState, reporting) },
    searched: best.searched,
    labelCount: searches.reduce((sum, { solution }) => sum + solution.labelCount, 0),
    rehearsal: best.report.entries.length === 0 ? null : rehearsalOf(preparation, best.report, reporting),
    standing: kept?.standing ?? null,
  };
}

/**
 * The standing plan, where nothing better enough has been found.
 *
 * It gives way when the new plan does more (priority weight), or holds by `keepPlanUnlessBetterPoints` more often and by
 * more than twice the paired standard error, or when it has itself fallen below the wanted probability.
 */
function keepStanding(
  preparation: Preparation,
  problem: PlanningProblem,
  of: { fresh: Judged; standing: Plan; searches: readonly Searched[]; reporting: ReportingWeather },
): { judged: Judged; standing: Plan['standing'] } {
  const { keepPlanUnlessBetterPoints, wantedProbability } = preparation.passage.settings;
  const { fresh } = of;
  const [searched] = of.searches.toReversed();
  const { state, overdue: overdueJobs } =
    searched === undefined ? NOTHING_LEFT : standingLeft(searched, of.standing, STANDING_SEARCH);
  const overdue = overdueJobs.map((job) => publishedOverdue(preparation, job));
  const gone = (text: string): { judged: Judged; standing: Plan['standing'] } => ({
    judged: fresh,
    standing: { kept: false, text, overdue },
  });
  if (state === null) return gone('Nothing of the standing plan lies ahead and can still be done.');
  const old = judge(preparation, problem, { state, searched: searched ?? null, reporting: of.reporting });
  const { probability } =
    old.report.jointMask === null ? { probability: 1 } : probabilityOf(old.report.jointMask, old.report);
  if (probability < wantedProbability)
    return gone(`The standing plan now holds together in only ${ofHundred(probability)}.`);
  if (fresh.score.priorityWeight > old.score.priorityWeight)
    return gone('The new plan gets more done than the standing one.');
  const { differenceShare, differenceSd } = pairedDifference(fresh.report, old.report);
  const points = differenceShare * 100;
  if (points >= keepPlanUnlessBetterPoints && differenceShare > 2 * differenceSd)
    return gone(`The new plan holds together ${points.toFixed(0)} times in 100 more often than the standing one.`);
  const text = `The standing plan is kept: the best new one is better by ${Math.max(0, points).toFixed(1)} in 100 ± ${(differenceSd * 100).toFixed(1)}; it gives way to ${keepPlanUnlessBetterPoints} or more, and more than twice the ±.`;
  return { judged: old, standing: { kept: true, text, overdue } };
}

const NOTHING_LEFT: StandingLeft = { state: null, overdue: [] };

/** Only starts that are there already: there is little to search. */
const STANDING_SEARCH: SearchSettings = { beamWidths: [300], extensionBudget: 200_000, isAdvice: true };

interface Judging {
  readonly reporting: ReportingWeather;
  readonly settings: SolveSettings;
}

/**
 * Searches against tightened limits first; against the limits as they stand where those leave a job out. A plan with
 * fewer jobs loses to one with more that keeps what it must: it is searched only where there is none.
 */
function searchesOf(preparation: Preparation, problem: PlanningProblem, judging: Judging): Searched[] {
  const ratio = planningLimitRatio(preparation);
  if (ratio === 1) return searchUntilSure(preparation, 1, judging);
  const { search } = judging.settings;
  const tight = searchUntilSure(preparation, ratio, {
    ...judging,
    settings: { search: { ...search, onlyWhole: true } },
  });
  const isWhole = problem.jobs.every((job) => isJobDone(tight.at(-1)?.state ?? startOfPlan(problem), problem, job.id));
  if (isWhole) return tight;
  const isStopped = (): boolean => search.isCancelled?.() === true;
  const loose = isStopped() ? [] : searchUntilSure(preparation, 1, judging);
  const isLeftOff = tight.some(({ solution }) => solution.isLeftOff);
  if (!isLeftOff || isStopped()) return [...tight, ...loose];
  if (hasMostJobs(preparation, loose, judging)) return loose;
  return [...searchUntilSure(preparation, ratio, judging), ...loose];
}

/** Whether the last of the searches found all the jobs that can be done, so that they hold on fresh scenarios too. */
function hasMostJobs(preparation: Preparation, searches: readonly Searched[], { reporting }: Judging): boolean {
  const last = searches.at(-1);
  if (last === undefined) return false;
  const { worth, bound } = last.solution;
  const isMost = worth.priorityWeight >= bound.priorityWeight;
  return isMost && shortOfWanted(preparation, reportPlan(preparation, last.state, reporting)) <= 0;
}

/** How often more is asked of a plan that does not keep the wanted probability on fresh scenarios. */
const MOST_RAISES = 2;
/** Asked on top of what was short; and limits tightened, for places that differ from the searched ones. */
const RAISE_SHARE = 0.02;
const RAISE_LIMIT_RATIO = 0.97;

/** One search after the other, each asking for more, until the plan keeps the wanted probability on fresh scenarios. */
function searchUntilSure(preparation: Preparation, limitRatio: number, judging: Judging): Searched[] {
  const searches: Searched[] = [];
  let problem = problemOf(preparation, limitRatio);
  const total = totalWeight(problem.weights);
  for (let raise = 0; raise <= MOST_RAISES; raise++) {
    const searched = searchPlan(problem, judging.settings.search);
    searches.push(searched);
    if (searched.solution.isLeftOff || judging.settings.search.isCancelled?.() === true) break;
    const shortShare = shortOfWanted(preparation, reportPlan(preparation, searched.state, judging.reporting));
    if (shortShare <= 0) break;
    const neededWeight = Math.min(total, problem.neededWeight + (shortShare + RAISE_SHARE) * total);
    problem = { ...problemOf(preparation, limitRatio * RAISE_LIMIT_RATIO ** (raise + 1)), neededWeight };
  }
  return searches;
}

/**
 * By how much a plan falls short of the wanted probability on fresh scenarios (0..1): its unconditional jobs together, or
 * a conditional one by itself; 0 or below: it does not.
 */
function shortOfWanted(preparation: Preparation, report: Report): number {
  const { wantedProbability } = preparation.passage.settings;
  const joint = report.jointMask === null ? 1 : probabilityOf(report.jointMask, report).probability;
  const alone = report.conditionalJobIds.map(
    (id) => probabilityOf(maskOfJob(preparation, report, id), report).probability,
  );
  return wantedProbability - Math.min(joint, ...alone) - 1e-9;
}

function planningLimitRatio(preparation: Preparation): number {
  const { settings } = preparation.passage;
  return preparation.weather.weights.length === 1 ? 1 : settings.planningLimitRatio;
}

/** A searched plan, and the part of it that keeps the wanted probability on fresh scenarios where the whole does not. */
function searchedParts(preparation: Preparation, searched: Searched, { reporting }: Judging): Candidate[] {
  const whole = { state: searched.state, searched };
  const report = reportPlan(preparation, searched.state, reporting);
  if (shortOfWanted(preparation, report) <= 0) return [whole];
  const kept = heldJobs(preparation, searched.problem, { state: searched.state, report });
  return [whole, { state: partOf(searched, kept), searched: null }];
}

/** What lists of windows lead to, in the order of the passage and the more important first. */
const listedPlans = (problem: PlanningProblem, listed: readonly Job[], firstFairState: PlanState): PlanState[] => [
  firstFairPlan(problem, problem.jobs),
  firstFairState,
  bestWindowPlan(problem, problem.jobs),
  bestWindowPlan(problem, listed),
];

/** What of a plan made from a list of windows keeps the wanted probability on fresh scenarios. */
function listedPart(
  preparation: Preparation,
  problem: PlanningProblem,
  of: { state: PlanState; reporting: ReportingWeather },
): PlanState {
  const report = reportPlan(preparation, of.state, of.reporting);
  const kept = heldJobs(preparation, problem, { state: of.state, report });
  const decisions = decisionsOf(of.state).filter(({ unit }) => kept.has(problem.units[unit]?.job.id ?? ''));
  return replayFreely(problem, decisions) ?? startOfPlan(problem);
}

function heldJobs(
  preparation: Preparation,
  problem: PlanningProblem,
  of: { state: PlanState; report: Report },
): ReadonlySet<string> {
  const jobs = problem.jobs.filter((job) => isJobDone(of.state, problem, job.id));
  const { wantedProbability } = preparation.passage.settings;
  return jobsThatHold(preparation, of.report, { jobs, wantedProbability });
}

interface Candidate {
  readonly state: PlanState;
  readonly searched: Searched | null;
}

/** Every plan once; where two agree the searched one is kept. */
function distinct(candidates: readonly Candidate[]): Candidate[] {
  const byDecisions = new Map<string, Candidate>();
  for (const candidate of candidates) {
    const key = JSON.stringify(decisionsOf(candidate.state));
    if (!byDecisions.has(key)) byDecisions.set(key, candidate);
  }
  return [...byDecisions.values()];
}

/** Level by level; what is equal in jobs and probability is the searched plan's, whose cost is the search's own. */
function byWorth(a: Judged, b: Judged): number {
  const cheap = (score: Score): Score => ({ ...score, costPoints: 0, endSlot: 0 });
  return (
    compareScores(cheap(a.score), cheap(b.score)) ||
    Number(a.searched === null) - Number(b.searched === null) ||
    compareScores(a.score, b.score)
  );
}

interface Judged extends Candidate {
  readonly report: Report;
  readonly score: Score;
}

/** Score of a plan with the joint probability found on the fresh scenarios. */
function judge(
  preparation: Preparation,
  problem: PlanningProblem,
  of: Candidate & { reporting: ReportingWeather },
): Judged {
  const { state, searched } = of;
  const report = reportPlan(preparation, state, of.reporting);
  const done = doneWeights(problem, state);
  const { wantedProbability, probabilityTolerancePoints } = preparation.passage.settings;
  const isAloneHeld = report.conditionalJobIds.every(
    (id) => probabilityOf(maskOfJob(preparation, report, id), report).probability >= wantedProbability - 1e-9,
  );
  const conditionalPriorityWeight = isAloneHeld ? done.conditionalPriorityWeight : 0;
  const score = { ...scoreOf(problem, state), ...done, conditionalPriorityWeight };
  if (report.jointMask === null) return { state, searched, report, score };
  const { probability } = probabilityOf(report.jointMask, report);
  // What keeps the wanted probability only where it was searched counts for nothing.
  if (probability < wantedProbability - 1e-9)
    return { state, searched, report, score: { ...score, priorityWeight: 0, jointStepCount: -1 } };
  const jointStepCount = Math.floor((probability * 100) / probabilityTolerancePoints + 1e-9);
  return { state, searched, report, score: { ...score, jointStepCount } };
}
