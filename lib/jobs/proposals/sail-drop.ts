import type { SailState } from '../../boat/index.ts';
import type { Job } from '../job.ts';

/** The drop of the mainsail in a passage, its hoist, and the states between them. */
export interface SailDrop {
  readonly drop: Job;
  /** null: the passage does not hoist it again. */
  readonly hoist: Job | null;
  readonly downStates: readonly string[];
}

/** The first job that takes the mainsail down, with the one that sets it again; null: it stays up. */
export function sailDropOf(jobs: readonly Job[], sailStates: readonly SailState[]): SailDrop | null {
  const downStates = sailStates.filter(({ mainsail }) => mainsail === 'none').map(({ id }) => id);
  const leaves = (job: Job): string | null =>
    job.steps.findLast(({ sailStateAfter }) => sailStateAfter !== null)?.sailStateAfter ?? null;
  const isDown = (id: string | null): boolean => id !== null && downStates.includes(id);
  const drop = jobs.find((job) => isDown(leaves(job)) && !needsDown(job, downStates));
  if (drop === undefined) return null;
  const hoist = jobs.find((job) => leaves(job) !== null && !isDown(leaves(job)) && needsDown(job, downStates));
  return { drop, hoist: hoist ?? null, downStates };
}

/** Whether a job can be worked with the mainsail down only. */
export const needsDown = ({ sailStates }: Pick<Job, 'sailStates'>, downStates: readonly string[]): boolean =>
  sailStates.length > 0 && sailStates.every((id) => downStates.includes(id));

/** Everything a job waits for, directly or through others. */
export function allBefore(job: Job, jobs: readonly Job[]): ReadonlySet<string> {
  const before = new Set<string>();
  const add = (ids: readonly string[]): void => {
    for (const id of ids) {
      if (before.has(id)) continue;
      before.add(id);
      add(jobs.find((other) => other.id === id)?.after ?? []);
    }
  };
  add(job.after);
  return before;
}
