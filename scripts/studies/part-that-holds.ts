import type { Passage } from '../../lib/passage/index.ts';
import { jointOf, type StudyJobOutcome } from './planner.ts';

/**
 * Jobs of a plan that together hold with the wanted probability, as many by priority weight as can be found by leaving
 * jobs out and the others where they are; what comes after a job left out goes with it. Of the same weight the likelier.
 */
export function bestPartThatHolds(
  passage: Passage,
  { jobs, weights }: { readonly jobs: readonly StudyJobOutcome[]; readonly weights: Int32Array },
): ReadonlySet<string> {
  const parts = partsOf(jobs)
    .filter((part) => isClosed(passage, part, jobs))
    .map((part) => ({
      part,
      priorityWeight: part.reduce((sum, job) => sum + job.priorityWeight, 0),
      probability: jointOf(part, weights),
    }))
    .filter(({ probability }) => probability >= passage.settings.wantedProbability - 1e-9)
    .toSorted((a, b) => b.priorityWeight - a.priorityWeight || b.probability - a.probability);
  return new Set(parts[0]?.part.map(({ jobId }) => jobId));
}

const partsOf = (jobs: readonly StudyJobOutcome[]): StudyJobOutcome[][] =>
  Array.from({ length: 2 ** jobs.length }, (_, bits) => jobs.filter((_job, k) => Math.floor(bits / 2 ** k) % 2 === 1));

function isClosed(passage: Passage, part: readonly StudyJobOutcome[], all: readonly StudyJobOutcome[]): boolean {
  const has = (jobs: readonly StudyJobOutcome[], id: string): boolean => jobs.some(({ jobId }) => jobId === id);
  return passage.jobs
    .filter(({ id }) => has(part, id))
    .every(({ after }) => after.every((id) => has(part, id) || !has(all, id)));
}
