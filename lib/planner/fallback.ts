import { solveSchedule } from '../schedule/index.ts';
import type { ScheduleEntry, ScheduleSettings, WorkEntry } from '../schedule/index.ts';
import { carryOut } from './model/carry-out.ts';
import { restricted } from './model/restrict.ts';
import type { Model } from './model/schedule-problem.ts';
import type { Searched } from './search.ts';
import type { PlanState } from './state.ts';

/** What is left of a plan when a job does not begin in the window it was planned in. */
export interface Fallback {
  readonly state: PlanState;
  /** Share of scenario weight (0..1) in which all of it holds, on the scenarios searched. */
  readonly jointShare: number;
}

/** A job of a plan, and the starts that are given up. */
export interface GivenUp {
  readonly jobId: string;
  /** Slots of the passage, both ends included. */
  readonly firstSlot: number;
  readonly lastSlot: number;
  /** Instant of the decision: what was to begin before it is done as planned. */
  readonly decideSlot: number;
}

/** Plans again with a job's window gone: what begins before the decision stays as it is, the rest is free. */
export function fallbackOf(searched: Searched, givenUp: GivenUp, settings: ScheduleSettings): Fallback {
  const { problem, model, solution, conditionalIds } = searched;
  const fixed = fixedStarts(searched, givenUp);
  const again = restricted(model, ({ taskIndex, meaning }, begin) => {
    const slot = begin + problem.fromSlot;
    if (meaning.unit.job.id === givenUp.jobId) return slot > givenUp.lastSlot && slot >= givenUp.decideSlot;
    return slot >= givenUp.decideSlot || fixed.get(taskIndex)?.has(begin) === true;
  });
  const incumbent = restOfPlan(searched, again, { givenUp, settings });
  const found = solveSchedule(again.schedule, { ...settings, incumbent });
  const state = carryOut(problem, again, { entries: found.entries, conditionalIds });
  const total = model.schedule.weights.reduce((sum, weight) => sum + weight, 0);
  return { state, jointShare: solution.entries.length === 0 ? 0 : found.worth.jointWeight / total };
}

/** The plan without the job, every other start where it was: what the search may only better. */
function restOfPlan(
  { solution, problem }: Searched,
  again: Model,
  of: { givenUp: GivenUp; settings: ScheduleSettings },
): readonly ScheduleEntry[] {
  const work = solution.entries.filter((entry): entry is WorkEntry => entry.kind === 'work');
  const rest = restricted(again, ({ taskIndex, meaning }, begin) =>
    work.some(
      (entry) => entry.task === taskIndex && entry.beginSlot === begin && meaning.unit.job.id !== of.givenUp.jobId,
    ),
  );
  return problem.units.length === 0 ? [] : solveSchedule(rest.schedule, of.settings).entries;
}

/** Starts of the plan before the decision, by task. */
function fixedStarts({ problem, solution }: Searched, { decideSlot, jobId }: GivenUp): Map<number, Set<number>> {
  const fixed = new Map<number, Set<number>>();
  for (const entry of solution.entries.filter((found): found is WorkEntry => found.kind === 'work')) {
    const unit = problem.units[entry.task];
    if (unit === undefined || unit.job.id === jobId || entry.beginSlot + problem.fromSlot >= decideSlot) continue;
    fixed.set(entry.task, (fixed.get(entry.task) ?? new Set()).add(entry.beginSlot));
  }
  return fixed;
}

/** What a plan is worth when nothing begins before an instant: the value of waiting for the next forecast. */
export function waitingUntil(searched: Searched, untilSlot: number, settings: ScheduleSettings): Fallback {
  const { problem, model, conditionalIds } = searched;
  const again = restricted(model, (_, begin) => begin + problem.fromSlot >= untilSlot);
  const found = solveSchedule(again.schedule, settings);
  const total = model.schedule.weights.reduce((sum, weight) => sum + weight, 0);
  const state = carryOut(problem, again, { entries: found.entries, conditionalIds });
  return { state, jointShare: found.worth.jointWeight / total };
}
