import type { Job } from '../jobs/index.ts';
import type { JobOrder } from '../passage/index.ts';
import { effectiveEntries, type EffectiveEntry } from './effective.ts';
import type { NumberedEntry } from './entry.ts';
import { JobProgress } from './job-progress.ts';
import type { JobState } from './job-state.ts';

/** What is known of a job besides the log. */
export interface JobStateOptions {
  /** What the passage file says is done, by job id. */
  readonly orders?: ReadonlyMap<string, Pick<JobOrder, 'isDone' | 'doneStepIds' | 'doneMin'>>;
  /** Own pace of the watchkeeper at a step of a job; 1 unless told. */
  readonly paceRatioOf?: (job: Job, stepId: string) => number;
}

/**
 * How far every job is, in the order of `jobs`.
 *
 * A job goes on from its last safe point. Work since then counts only as far as it can be stopped anywhere: in a block of
 * such steps all of it, in another block what was worked in the steps at its beginning that can, unless the minutes say
 * that these were passed. A safe point logged without its step is the next one, but never the end of the job. After
 * `done` nothing brings a job back but a correction. Minutes after a stop are those since it was taken up again; where
 * none are given the clock's are taken, one session at most.
 */
export function jobStates(
  entries: readonly NumberedEntry[],
  jobs: readonly Job[],
  options: JobStateOptions = {},
): readonly JobState[] {
  return jobStatesOf(effectiveEntries(entries), jobs, options);
}

/** `jobStates` of entries whose corrections are applied. */
export function jobStatesOf(
  effective: readonly EffectiveEntry[],
  jobs: readonly Job[],
  options: JobStateOptions,
): readonly JobState[] {
  return jobs.map((job) => {
    const progress = new JobProgress(job, options.orders?.get(job.id) ?? null);
    for (const { number, statement, atEpochMs } of effective)
      if (statement.kind === 'job' && statement.jobId === job.id)
        progress.take({ number, event: statement, atEpochMs });
    return progress.state((stepId) => options.paceRatioOf?.(job, stepId) ?? 1);
  });
}
