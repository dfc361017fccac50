import { didYouMean, type Problem } from '../result/index.ts';

/** What of a job precedence looks at. */
export interface Ordered {
  readonly id: string;
  readonly after: readonly string[];
}

/**
 * Everything wrong with the order of jobs: unknown names, jobs after themselves, rings.
 *
 * @param whereOf path of a job inside its document
 */
export function precedenceProblems(jobs: readonly Ordered[], whereOf: (index: number) => string): readonly Problem[] {
  const known = jobs.map((job) => job.id);
  const references = jobs.flatMap((job, index) =>
    job.after.flatMap((id, at) => referenceProblems(job, id, { known, where: `${whereOf(index)}.after[${at}]` })),
  );
  const rings = ringsOf(jobs).map((ring) => ringProblem(ring, whereOf(known.indexOf(ring[0] ?? ''))));
  return [...references, ...rings];
}

function referenceProblems(job: Ordered, id: string, at: { known: readonly string[]; where: string }): Problem[] {
  if (id === job.id)
    return [
      {
        code: 'jobs.after-itself',
        where: at.where,
        what: `Job "${job.id}" is to come after itself.`,
        expected: 'ids of other jobs',
        remedy: 'Take it out of its own list.',
      },
    ];
  if (at.known.includes(id)) return [];
  const near = didYouMean(
    id,
    at.known.filter((other) => other !== job.id),
  );
  return [
    {
      code: 'jobs.after-unknown',
      where: at.where,
      what: `Job "${job.id}" is to come after "${id}", which is not in the list of jobs.`,
      expected: `one of ${at.known.filter((other) => other !== job.id).join(', ') || 'the jobs of this passage'}`,
      remedy: near === null ? 'Add that job or take it out.' : `Did you mean "${near}"?`,
    },
  ];
}

const ringProblem = (ring: readonly string[], where: string): Problem => ({
  code: 'jobs.after-ring',
  where: `${where}.after`,
  what: `These jobs wait for one another: ${ring.join(' after ')}.`,
  expected: 'an order with a first job',
  remedy: 'Take one of them out of the other one’s list.',
});

/** Each ring once, as the way round from its first job in the list back to it; a job after itself is not one. */
function ringsOf(jobs: readonly Ordered[]): readonly (readonly string[])[] {
  const after = new Map(jobs.map((job) => [job.id, job.after.filter((id) => id !== job.id)]));
  const done = new Set<string>();
  const rings: string[][] = [];
  const visit = (id: string, path: readonly string[]): void => {
    const at = path.indexOf(id);
    if (at >= 0) rings.push([...path.slice(at), id]);
    if (at >= 0 || done.has(id)) return;
    for (const next of after.get(id) ?? []) visit(next, [...path, id]);
    done.add(id);
  };
  for (const { id } of jobs) visit(id, []);
  return rings;
}
