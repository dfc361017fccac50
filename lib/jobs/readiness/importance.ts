import type { Job } from '../job.ts';

type Ordered = Pick<Job, 'id' | 'after' | 'priorityWeight'>;

/** Ids of all jobs a job comes after, directly or through others. */
export function jobsBefore(jobs: readonly Ordered[], job: Ordered): ReadonlySet<string> {
  const before = new Set<string>();
  const waiting = [...job.after];
  for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
    if (before.has(id)) continue;
    before.add(id);
    waiting.push(...(jobs.find((other) => other.id === id)?.after ?? []));
  }
  return before;
}

/**
 * Jobs in the order they take from the locker: the more important first, a job being as important as the most important
 * one that waits for it, and never before a job it comes after; of the same importance by id.
 */
export function byImportance<J extends Ordered>(jobs: readonly J[]): J[] {
  const before = new Map(jobs.map((job) => [job.id, jobsBefore(jobs, job)]));
  const weightOf = (job: J): number =>
    Math.max(
      job.priorityWeight,
      ...jobs.filter(({ id }) => before.get(id)?.has(job.id)).map((of) => of.priorityWeight),
    );
  const ranked = jobs
    .map((job) => ({ job, weight: weightOf(job) }))
    .toSorted((a, b) => b.weight - a.weight || (a.job.id < b.job.id ? -1 : Number(a.job.id > b.job.id)))
    .map(({ job }) => job);
  const ordered: J[] = [];
  while (ranked.length > 0) {
    const next = ranked.findIndex(({ id }) => !ranked.some((other) => before.get(id)?.has(other.id)));
    ordered.push(...ranked.splice(Math.max(0, next), 1));
  }
  return ordered;
}
