import { itemKey, type Locker, type Lot } from '../../stock/index.ts';
import type { Job, MaterialNeed } from '../job.ts';

/** What of a job is finished, and which tools it holds until its waits are over. */
export interface JobProgress {
  readonly isDone: boolean;
  readonly doneStepIds: readonly string[];
  readonly tools: readonly string[];
}

/** By job id; only jobs of which there is something to say. */
export type Progress = ReadonlyMap<string, JobProgress>;

export const isDone = (progress: Progress, job: Job): boolean => progress.get(job.id)?.isDone === true;

/** What the unfinished steps of a job take; a step begun takes all of its own. */
export function materialsLeft(job: Job, progress: Progress): MaterialNeed[] {
  const order = progress.get(job.id);
  if (order?.isDone === true) return [];
  const done = order?.doneStepIds ?? [];
  return job.steps.filter(({ id }) => !done.includes(id)).flatMap((step) => step.materials);
}

/** Tools an unfinished job is worked with or holds, each once. */
export function toolsLeft(job: Job, progress: Progress): string[] {
  if (isDone(progress, job)) return [];
  const tools = [...job.needsTools, ...(progress.get(job.id)?.tools ?? [])];
  const keys = tools.map(itemKey);
  return tools.filter((_, index) => keys.indexOf(keys[index] ?? '') === index);
}

/** What a job makes, to be taken by jobs that come after it. */
export const lotsMadeBy = (job: Job): Lot[] =>
  job.makes.map((make) => ({ ...make, readyEpochMs: null, makerId: job.id }));

/**
 * What finished jobs have made and the locker does not list: it lies on board. Where the locker lists it, the locker has
 * the last word.
 */
export function lotsMadeAlready(jobs: readonly Job[], progress: Progress, locker: Locker): Lot[] {
  const listed = locker.items.map(({ item }) => itemKey(item));
  return jobs
    .filter((job) => isDone(progress, job))
    .flatMap(lotsMadeBy)
    .filter(({ item }) => !listed.includes(itemKey(item)))
    .map((lot) => ({ ...lot, makerId: null }));
}
