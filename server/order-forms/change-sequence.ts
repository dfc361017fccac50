import type { PassageFile } from '../../lib/passage/index.ts';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';

/** One job that is finished before another begins. */
export interface Sequence {
  readonly firstId: string;
  readonly secondId: string;
}

/** What an order of jobs is judged by: ids, names, and what each comes after. */
export type SequencedJob = { readonly id: string; readonly name: string; readonly after: readonly string[] };

/**
 * The jobs from one to another along the orders, both included, as each comes after the one before; null: no order lies
 * between them. The shortest such way.
 */
export function orderBetween(jobs: readonly SequencedJob[], { firstId, secondId }: Sequence): readonly string[] | null {
  const ways = [[secondId]];
  const seen = new Set([secondId]);
  for (let i = 0; i < ways.length; i++) {
    const way = ways[i] ?? [];
    const after = jobs.find(({ id }) => id === way[0])?.after ?? [];
    if (after.includes(firstId)) return [firstId, ...way];
    for (const id of after) {
      if (seen.has(id)) continue;
      seen.add(id);
      ways.push([id, ...way]);
    }
  }
  return null;
}

/** The passage with an order between two jobs: the second waits until the first is finished. */
export function withSequence(
  file: PassageFile,
  jobs: readonly SequencedJob[],
  sequence: Sequence,
): Result<PassageFile> {
  const { firstId, secondId } = sequence;
  const problem = whyNot(jobs, sequence);
  if (problem !== null) return failed(problem);
  return ok({
    ...file,
    jobs: (file.jobs ?? []).map((entry) =>
      entry.id === secondId ? { ...entry, after: [...(entry.after ?? []), firstId] } : entry,
    ),
  });
}

function whyNot(jobs: readonly SequencedJob[], { firstId, secondId }: Sequence): Problem | null {
  const nameOf = (id: string): string => `“${jobs.find((job) => job.id === id)?.name ?? id}”`;
  const goneId = [firstId, secondId].find((id) => !jobs.some((job) => job.id === id));
  if (goneId !== undefined) return goneJob(goneId);
  if (firstId === secondId) return sameJob(nameOf(firstId));
  const back = orderBetween(jobs, { firstId: secondId, secondId: firstId });
  if (back !== null) return ring(nameOf(firstId), nameOf(secondId), back.map(nameOf));
  const there = orderBetween(jobs, { firstId, secondId });
  return there === null ? null : thereAlready(there.map(nameOf));
}

/** The passage without an order between two jobs; a job that comes after none loses the key. */
export function withoutSequence(file: PassageFile, { firstId, secondId }: Sequence): Result<PassageFile> {
  const jobs = file.jobs ?? [];
  if (!jobs.some(({ id, after }) => id === secondId && after?.includes(firstId) === true)) return failed(goneOrder);
  return ok({
    ...file,
    jobs: jobs.map((entry) => {
      if (entry.id !== secondId) return entry;
      const { after = [], ...rest } = entry;
      const left = after.filter((id) => id !== firstId);
      return left.length === 0 ? rest : { ...rest, after: left };
    }),
  });
}

const goneJob = (jobId: string): Problem => ({
  code: 'passage.entry-gone',
  where: 'jobs',
  what: jobId === '' ? 'No job is chosen.' : `The job “${jobId}” is not in the passage any more.`,
  expected: 'two jobs that are there',
  remedy: 'Choose both from the list.',
});

const sameJob = (name: string): Problem => ({
  code: 'order.same-job',
  where: 'second',
  what: `${name} cannot come before itself.`,
  expected: 'two different jobs',
  remedy: 'Choose another job.',
});

const ring = (first: string, second: string, back: readonly string[]): Problem => ({
  code: 'order.ring',
  where: 'second',
  what: `${first} cannot come before ${second}: the order is already ${back.join(', then ')}. Each would wait for the other.`,
  expected: 'two jobs with no order between them, or the other way round',
  remedy: 'Take the order out that stands against it, then put the new one in.',
});

const thereAlready = (way: readonly string[]): Problem => ({
  code: 'order.there-already',
  where: 'second',
  what: `This order is there already: ${way.join(', then ')}.`,
  expected: 'two jobs with no order between them',
  remedy: 'Nothing needs to be done.',
});

const goneOrder: Problem = {
  code: 'passage.entry-gone',
  where: 'jobs',
  what: 'This order is not in the passage any more.',
  expected: 'an order that is there',
  remedy: 'Look at the list.',
};
