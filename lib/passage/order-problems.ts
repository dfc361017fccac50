/** What is wrong with the orders of one job: steps said to be done, and what is locked. */
import type { Boat } from '../boat/index.ts';
import { unknownName, type Job, type JobFile } from '../jobs/index.ts';
import type { Problem } from '../result/index.ts';
import { formatUtc } from '../time/index.ts';
import type { ForbiddenTime, JobOrder } from './orders.ts';

/** An entry of the jobs, and what was read of its order. */
export interface OrderedJob {
  readonly file: JobFile;
  /** null: the entry makes no job, and its steps are not known. */
  readonly job: Job | null;
  readonly where: string;
  readonly order: JobOrder | null;
  readonly forbidden: readonly ForbiddenTime[];
  /** null: the boat is not known. */
  readonly boat: Boat | null;
}

/** `passage.done-step-unknown`, `passage.done-order`, `passage.done-all`. */
export function doneProblems({ file, job, where, order }: OrderedJob): Problem[] {
  if (job === null) return [];
  const known = job.steps.map(({ id }) => id);
  const done = file.doneSteps ?? [];
  const strange = done.flatMap((name, index) =>
    known.includes(name)
      ? []
      : [unknownName({ code: 'passage.done-step-unknown', kind: 'step', name, known }, `${where}.doneSteps[${index}]`)],
  );
  if (strange.length > 0) return strange;
  const isBeginning = done.every((id, index) => known[index] === id);
  const isOver = order !== null && order.isDone && order.doneMin > 0;
  return [
    ...(isBeginning ? [] : [doneOrder(done, known, `${where}.doneSteps`)]),
    ...(isOver ? [doneAll(`${where}.doneMin`)] : []),
  ];
}

const doneOrder = (done: readonly string[], known: readonly string[], where: string): Problem => ({
  code: 'passage.done-order',
  where,
  what: `${done.join(', ')} is not how the job begins.`,
  expected: `its first ${done.length === 1 ? 'step' : 'steps'} in order: ${known.slice(0, Math.max(1, done.length)).join(', ')}`,
  remedy: 'Name every finished step from the first on; what is begun goes into doneMin.',
});

const doneAll = (where: string): Problem => ({
  code: 'passage.done-all',
  where,
  what: 'Minutes are given for work begun, but all of the job is finished.',
  expected: 'doneMin only where a step is left',
  remedy: 'Take doneMin out, or correct what is done.',
});

/** `passage.handling-unknown`, `passage.lock-handling`, `passage.lock-forbidden`. */
export function lockProblems(of: OrderedJob): Problem[] {
  return [...handlingProblems(of), ...forbiddenProblems(of)];
}

function handlingProblems({ file, job, where, boat }: OrderedJob): Problem[] {
  const name = file.lockHandling;
  if (name === undefined) return [];
  const place = `${where}.lockHandling`;
  const known = boat?.handlings.map(({ id }) => id) ?? [name];
  if (!known.includes(name))
    return [unknownName({ code: 'passage.handling-unknown', kind: 'handling', name, known }, place)];
  if (job === null || job.handlings.includes(name)) return [];
  return [
    {
      code: 'passage.lock-handling',
      where: place,
      what: `The job is not worked under "${name}".`,
      expected: `one of its handlings: ${job.handlings.join(', ')}`,
      remedy: 'Choose one of these, or add it to the handlings of the job.',
    },
  ];
}

function forbiddenProblems({ file, where, order, forbidden }: OrderedJob): Problem[] {
  const startEpochMs = order?.lockedStartEpochMs ?? null;
  if (startEpochMs === null) return [];
  return forbidden.flatMap((span, index) => {
    const isMeant = span.jobId === null || span.jobId === file.id;
    if (!isMeant || startEpochMs < span.fromEpochMs || startEpochMs >= span.toEpochMs) return [];
    return [
      {
        code: 'passage.lock-forbidden',
        where: `${where}.startUtc`,
        what: `It starts at ${formatUtc(startEpochMs)}, inside forbidden[${index}] (${formatUtc(span.fromEpochMs)} to ${formatUtc(span.toEpochMs)}).`,
        expected: 'a start outside the forbidden hours',
        remedy: 'Move the start, or shorten the forbidden hours.',
      },
    ];
  });
}
