import type { ScheduleSettings, ScheduleSolution } from '../schedule/index.ts';
import { DEFAULT_SCHEDULE_SETTINGS, solveSchedule } from '../schedule/index.ts';
import { conditionalAmong, conditionalJobs } from './conditional-jobs.ts';
import { carryOut } from './model/carry-out.ts';
import { LAG_COUNTS } from './model/lag-quanta.ts';
import type { Model } from './model/schedule-problem.ts';
import { scheduleProblem } from './model/schedule-problem.ts';
import type { PlanningProblem } from './problem.ts';
import type { PlanState } from './state.ts';
import { isJobDone } from './state.ts';

/** How long to search, and whom to tell. */
export interface SearchSettings extends Omit<ScheduleSettings, 'onPlan' | 'incumbent'> {
  /** Called with each plan better than those before it in the same search. */
  readonly onFound?: (found: FoundSoFar) => void;
}

/** A plan found on the way: jobs done, and the share (0..1) of the scenarios searched in which they hold together. */
export interface FoundSoFar {
  readonly jobCount: number;
  readonly holdsShare: number;
}

export const DEFAULT_SEARCH: SearchSettings = { ...DEFAULT_SCHEDULE_SETTINGS, extensionBudget: 3_000_000 };

/** The best plan of a problem, and what is proven about it. */
export interface Searched {
  readonly problem: PlanningProblem;
  readonly model: Model;
  readonly conditionalIds: ReadonlySet<string>;
  readonly solution: ScheduleSolution;
  readonly state: PlanState;
}

/**
 * Searches the best plan by exact label setting (room `schedule`).
 *
 * Jobs are first placed only where every limit is known; those that stay unplanned are then tried where a limit is
 * unknown, without giving up any of the others.
 */
export function searchPlan(problem: PlanningProblem, settings: SearchSettings): Searched {
  const conditionalIds = conditionalJobs(problem);
  const first = searchWith(problem, conditionalIds, settings);
  if (first.solution.isLeftOff || settings.isCancelled?.() === true) return first;
  const left = problem.jobs.filter((job) => !isJobDone(first.state, problem, job.id) && !conditionalIds.has(job.id));
  const more = conditionalAmong(problem, new Set(left.map((job) => job.id)));
  if (more.size === 0) return first;
  const second = searchWith(problem, new Set([...conditionalIds, ...more]), settings);
  return second.solution.worth.priorityWeight >= first.solution.worth.priorityWeight ? second : first;
}

/** Searches with few lags first: a plan that comes to the end of them is searched again with more. */
function searchWith(problem: PlanningProblem, conditionalIds: ReadonlySet<string>, settings: SearchSettings): Searched {
  let found: Searched | null = null;
  for (const mostLagCount of LAG_COUNTS) {
    const model = scheduleProblem(problem, { conditionalIds, mostLagCount });
    const { onFound } = settings;
    const solution = solveSchedule(model.schedule, {
      ...settings,
      ...(onFound === undefined ? {} : { onPlan: (better) => onFound(foundSoFar(model, better)) }),
    });
    const state = carryOut(problem, model, { entries: solution.entries, conditionalIds });
    found = { problem, model, conditionalIds, solution, state };
    const isEnough = model.schedule.lagCount < mostLagCount || !reachesLastLag(found);
    if (isEnough || settings.isCancelled?.() === true) break;
  }
  if (found === null) throw new Error('there is a number of lags to search with');
  return found;
}

function reachesLastLag({ model, solution }: Searched): boolean {
  return solution.entries.some((entry) => entry.kind === 'work' && entry.lag >= model.schedule.lagCount - 1);
}

function foundSoFar({ schedule }: Model, { entries, worth }: Pick<ScheduleSolution, 'entries' | 'worth'>): FoundSoFar {
  const done = new Set(entries.flatMap((entry) => (entry.kind === 'work' && entry.finishes ? [entry.task] : [])));
  return {
    jobCount: schedule.jobs.filter(({ tasks }) => tasks.every((task) => done.has(task))).length,
    holdsShare: worth.jointWeight / schedule.weights.reduce((sum, weight) => sum + weight, 0),
  };
}
