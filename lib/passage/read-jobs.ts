import type { Boat } from '../boat/index.ts';
import { jobFile, makeJob, precedenceProblems, unknownName, type Job, type JobFile } from '../jobs/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import { twiceProblems } from './read-boat.ts';
import { placeOf, readShape, type At } from '../shape/index.ts';

/** The jobs of a file and what in them is default. */
export interface ReadJobs {
  readonly jobs: readonly Job[];
  readonly defaultsUsed: readonly string[];
}

/**
 * The jobs, each read for itself so that a mistake in one does not hide those in others.
 *
 * @param boat null when it could not be read: then handlings and sail states are not checked
 */
export function readJobs(raw: readonly unknown[], at: At, boat: Boat | null): Result<ReadJobs> {
  const placeAt = (index: number): string => placeOf({ ...at, path: [...at.path, index] });
  const shapes = raw.map((one, index) => readShape(jobFile, one, { ...at, path: [...at.path, index] }));
  const made = shapes.map((shape, index) => (shape.ok ? makeJob(shape.value, placeAt(index)) : shape));
  const named = raw.map(namedJob);
  const problems = [
    ...made.flatMap((job) => (job.ok ? [] : job.problems)),
    ...twiceProblems(
      named.filter(({ id }) => id !== ''),
      placeOf(at),
    ),
    ...precedenceProblems(named, placeAt),
    ...shapes.flatMap((shape, index) =>
      shape.ok && boat !== null ? referenceProblems(shape.value, boat, placeAt(index)) : [],
    ),
    ...made.flatMap((job, index) => (job.ok && boat !== null ? missingInBoat(job.value, boat, placeAt(index)) : [])),
  ];
  return okUnless(problems, () => ({
    jobs: made.flatMap((job) => (job.ok ? [job.value] : [])),
    defaultsUsed: shapes.flatMap((shape) => (shape.ok ? defaultsOf(shape.value) : [])),
  }));
}

/** Id and predecessors of an entry as far as they can be read, so that order is checked in a file with other mistakes. */
function namedJob(raw: unknown): { id: string; after: readonly string[] } {
  if (typeof raw !== 'object' || raw === null) return { id: '', after: [] };
  const id = 'id' in raw && typeof raw.id === 'string' ? raw.id : '';
  const after: readonly unknown[] = 'after' in raw && Array.isArray(raw.after) ? raw.after : [];
  return { id, after: after.filter((name) => typeof name === 'string') };
}

/** Handlings and sail states that the file itself names and the boat has not. */
function referenceProblems(file: JobFile, boat: Boat, where: string): readonly Problem[] {
  const handlings = boat.handlings.map(({ id }) => id);
  const states = boat.sailStates.map(({ id }) => id);
  const stateProblem = (name: string, place: string): readonly Problem[] =>
    states.includes(name)
      ? []
      : [unknownName({ code: 'passage.sail-state-unknown', kind: 'sail state', name, known: states }, place)];
  return [
    ...(file.handlings ?? []).flatMap((name, index) =>
      handlings.includes(name)
        ? []
        : [
            unknownName(
              { code: 'passage.handling-unknown', kind: 'handling', name, known: handlings },
              `${where}.handlings[${index}]`,
            ),
          ],
    ),
    ...(file.sailStates ?? []).flatMap((name, index) => stateProblem(name, `${where}.sailStates[${index}]`)),
    ...(file.steps ?? []).flatMap((step, index) =>
      typeof step.sailStateAfter === 'string'
        ? stateProblem(step.sailStateAfter, `${where}.steps[${index}].sailStateAfter`)
        : [],
    ),
  ];
}

/** A job none of whose handlings exists in any sail state it can be worked in can never be planned. */
function missingInBoat(job: Job, boat: Boat, where: string): readonly Problem[] {
  const known = boat.handlings.filter(({ id }) => job.handlings.includes(id));
  const fits = known.some(
    ({ sailStates }) => job.sailStates.length === 0 || sailStates.some((state) => job.sailStates.includes(state)),
  );
  const isAllKnown = job.sailStates.every((name) => boat.sailStates.some(({ id }) => id === name));
  if (fits || !isAllKnown || known.length < job.handlings.length) return [];
  return [
    {
      code: 'passage.no-handling',
      where: `${where}.handlings`,
      what: `None of ${job.handlings.join(', ')} exists in ${job.sailStates.join(' or ')}.`,
      expected: 'a handling that exists in a sail state of the job',
      remedy: 'Choose another handling, or correct the sail states of the job or of the handling.',
    },
  ];
}

const defaultsOf = (file: JobFile): readonly string[] => [
  ...(file.priority === undefined ? [`jobs.${file.id}.priority`] : []),
  ...(file.handlings === undefined ? [`jobs.${file.id}.handlings`] : []),
  ...(file.steps === undefined && file.minutes === undefined ? [`jobs.${file.id}.minutes`] : []),
  ...(file.steps === undefined && file.limits === undefined ? [`jobs.${file.id}.limits`] : []),
];
