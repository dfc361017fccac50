/** What the studies know of the planner, in one place: three ways to plan the same passage, and what each is worth. */
import type { Passage } from '../../lib/passage/index.ts';
import {
  bestWindowPlan,
  DEFAULT_SOLVE,
  firstFairPlan,
  isJobDone,
  prepare,
  problemOf,
  rehearsalOf,
  reportPlan,
  solve,
  type PlanningWeather,
  type PlanState,
  type Preparation,
  type Report,
  type ReportingWeather,
  type SolveSettings,
} from '../../lib/planner/index.ts';
import type { Rehearsal } from '../../lib/rehearsal/index.ts';
import { fullMask, intersect, weightOf } from '../../lib/windows/index.ts';

export type { PlanningWeather, Preparation, Report, ReportingWeather, SolveSettings };
export { DEFAULT_SOLVE };

/** A search for hundreds of passages: two passes, where the default goes on to the proof. */
export const STUDY_SOLVE: SolveSettings = { search: { beamWidths: [150, 1500], extensionBudget: 1_000_000 } };
/** The same for little passages. */
export const CHEAP_SOLVE: SolveSettings = { search: { beamWidths: [60, 400], extensionBudget: 60_000 } };

/** A plan and what became of it on the reporting draws. */
export interface StudyPlan {
  readonly state: PlanState;
  readonly report: Report;
  readonly jobs: readonly StudyJobOutcome[];
}

/** A job all of whose work the plan holds. */
export interface StudyJobOutcome {
  readonly jobId: string;
  readonly priorityWeight: number;
  /** Reporting scenarios in which all its entries stay inside their limits. */
  readonly mask: Uint32Array;
  readonly probability: number;
}

/** Makes a passage ready for planning from its clock on. */
export const prepared = (passage: Passage, weather: PlanningWeather): Preparation =>
  prepare(passage, weather, passage.fixedNowEpochMs ?? passage.start.epochMs);

/** The planner's own plan. */
export function jointPlan(
  preparation: Preparation,
  reporting: ReportingWeather,
  settings: SolveSettings = DEFAULT_SOLVE,
): StudyPlan {
  const { state, report } = solve(preparation, reporting, settings);
  return outcomeOf(preparation, state, report);
}

/** Each job, in the order of the list, in its first fair window. */
export const firstFair = (preparation: Preparation, reporting: ReportingWeather): StudyPlan =>
  listPlan(preparation, reporting, firstFairPlan);

/** Each job, in the order of the list, in its own best window. */
export const bestWindows = (preparation: Preparation, reporting: ReportingWeather): StudyPlan =>
  listPlan(preparation, reporting, bestWindowPlan);

/** One problem for all that is asked of a preparation: it keeps the tables it has worked out. */
const problems = new WeakMap<Preparation, ReturnType<typeof problemOf>>();

function problemFor(preparation: Preparation): ReturnType<typeof problemOf> {
  const problem = problems.get(preparation) ?? problemOf(preparation, 1);
  problems.set(preparation, problem);
  return problem;
}

function listPlan(preparation: Preparation, reporting: ReportingWeather, make: typeof firstFairPlan): StudyPlan {
  const listed = preparation.passage.jobs.filter((job) => !preparation.excluded.has(job.id));
  const state = make(problemFor(preparation), listed);
  return outcomeOf(preparation, state, reportPlan(preparation, state, reporting));
}

/** The same plan on other scenarios. */
export const reportedOn = (preparation: Preparation, plan: StudyPlan, reporting: ReportingWeather): StudyPlan =>
  outcomeOf(preparation, plan.state, reportPlan(preparation, plan.state, reporting));

/** The plan carried out once in each of these scenarios, with durations drawn under a seed. */
export function rehearsedOn(
  preparation: Preparation,
  plan: StudyPlan,
  on: { readonly scenarios: ReportingWeather; readonly seed: number },
): Rehearsal {
  const { passage } = preparation;
  const reseeded = { ...passage, settings: { ...passage.settings, seed: on.seed } };
  return rehearsalOf({ ...preparation, passage: reseeded }, plan.report, on.scenarios);
}

function outcomeOf(preparation: Preparation, state: PlanState, report: Report): StudyPlan {
  const problem = problemFor(preparation);
  const total = weightOf(fullMask(report.weights.length), report.weights);
  const done = problem.jobs.filter((job) => isJobDone(state, problem, job.id));
  const jobs = done.map(({ id, priorityWeight }) => {
    const own = report.entries.filter(({ placed }) => preparation.units[placed.unit]?.job.id === id);
    const mask = own.reduce((all, entry) => intersect(all, entry.mask), fullMask(report.weights.length));
    return { jobId: id, priorityWeight, mask, probability: weightOf(mask, report.weights) / total };
  });
  return { state, report, jobs };
}

/** Share of weight in which all jobs the plan holds stay inside their limits together; 1 for none. */
export const jointProbability = ({ jobs, report }: StudyPlan): number => jointOf(jobs, report.weights);

/** The same for some jobs of a plan. */
export function jointOf(jobs: readonly StudyJobOutcome[], weights: Int32Array): number {
  const everywhere = fullMask(weights.length);
  const mask = jobs.reduce((all, job) => intersect(all, job.mask), everywhere);
  return weightOf(mask, weights) / weightOf(everywhere, weights);
}
