import type { Plan, PlannedJob } from '../../lib/planner/index.ts';
import { epochOf } from './time-texts.ts';

/** The planned job that starts first among those not over yet; else a conditional one, else an unplanned one. */
export function nextJob(plan: Plan, nowEpochMs: number): PlannedJob | null {
  const ahead = plan.jobs
    .filter((job) => job.startUtc !== null && (job.endUtc === null || epochOf(job.endUtc) > nowEpochMs))
    .toSorted((a, b) => epochOf(a.startUtc ?? '') - epochOf(b.startUtc ?? ''));
  return (
    ahead.find((job) => job.status === 'planned') ??
    ahead.find((job) => job.status === 'conditional') ??
    plan.jobs.find((job) => job.status === 'unplanned') ??
    plan.jobs.at(-1) ??
    null
  );
}

/** The job asked for, or the next one where none, or one that does not exist, is asked for. */
export function chosenJob(plan: Plan, asked: string | null, nowEpochMs: number): PlannedJob | null {
  return plan.jobs.find((job) => job.jobId === asked) ?? nextJob(plan, nowEpochMs);
}
