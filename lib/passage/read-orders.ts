import type { z } from 'zod';
import type { Boat } from '../boat/index.ts';
import { jobFile, makeJob, readinessOf, unknownName, type Job, type JobFile } from '../jobs/index.ts';
import { okUnless, type Problem, type Result } from '../result/index.ts';
import { formatUtc, parseUtc } from '../time/index.ts';
import { doneProblems, lockProblems } from './order-problems.ts';
import type { ForbiddenTime, JobOrder, PlanOrders } from './orders.ts';
import type { forbiddenFile, lockerFile } from './passage-file.ts';
import { lockerOf } from './read-locker.ts';
import { placeOf, type At } from '../shape/index.ts';

interface OrderParts {
  readonly rawJobs: readonly unknown[];
  readonly forbidden: z.infer<typeof forbiddenFile>;
  readonly locker: z.infer<typeof lockerFile>;
}

/**
 * What the user fixes, gathered from the entries of the jobs, the locker and the forbidden hours.
 *
 * An entry whose shape is wrong is passed over here, since that is said where jobs are read.
 *
 * @param boat null when it could not be read: then handlings are not checked
 * @returns the orders, or `passage.order-times`, `passage.forbidden-order`, `passage.job-unknown`,
 *   `passage.handling-unknown`, `passage.lock-handling`, `passage.lock-forbidden`, `passage.done-step-unknown`,
 *   `passage.done-order`, `passage.done-all`, `time.not-an-instant`
 */
export function readOrders(
  parts: OrderParts,
  where: { readonly jobs: At; readonly forbidden: string; readonly locker: string },
  boat: Boat | null,
): Result<PlanOrders> {
  const problems: Problem[] = [];
  const entries = entriesOf(parts.rawJobs, where.jobs);
  const jobIds = parts.rawJobs.flatMap(idOf);
  const forbidden = readForbidden(parts.forbidden, { where: where.forbidden, jobIds, problems });
  parts.locker.forEach(({ readyUtc }, index) => instantOf(readyUtc, `${where.locker}[${index}].readyUtc`, problems));
  const asked = entries.map((entry) => ({ ...entry, order: orderOf(entry, problems) }));
  const readyEpochMs = readyTimes(asked, parts.locker);
  const jobs = new Map<string, JobOrder>();
  for (const entry of asked) {
    const notBeforeEpochMs = latest([entry.order.notBeforeEpochMs, readyEpochMs.get(entry.file.id) ?? null]);
    const whole = { ...entry.order, notBeforeEpochMs };
    problems.push(...timeProblems(whole, entry.where));
    const order = isEmpty(whole) ? null : whole;
    if (order !== null) jobs.set(entry.file.id, order);
    const found = { ...entry, order, forbidden, boat };
    problems.push(...doneProblems(found), ...lockProblems(found));
  }
  return okUnless(problems, () => ({ jobs, forbidden }));
}

interface Entry {
  readonly file: JobFile;
  /** null: the entry makes no job. */
  readonly job: Job | null;
  readonly where: string;
}

function entriesOf(rawJobs: readonly unknown[], at: At): Entry[] {
  return rawJobs.flatMap((raw, index) => {
    const shape = jobFile.safeParse(raw);
    if (!shape.success) return [];
    const where = placeOf({ ...at, path: [...at.path, index] });
    const job = makeJob(shape.data, where);
    return [{ file: shape.data, job: job.ok ? job.value : null, where }];
  });
}

const idOf = (raw: unknown): string[] =>
  typeof raw === 'object' && raw !== null && 'id' in raw && typeof raw.id === 'string' ? [raw.id] : [];

/** The order of one job as the user gives it. Problems of its instants are added to `problems`. */
function orderOf(entry: Entry, problems: Problem[]): JobOrder {
  const { file, job, where } = entry;
  const instant = (key: 'notBeforeUtc' | 'finishByUtc' | 'startUtc'): number | null =>
    instantOf(file[key], `${where}.${key}`, problems);
  const steps = job?.steps ?? [];
  const doneStepIds = file.doneSteps ?? [];
  const isDone = file.done === true || (steps.length > 0 && steps.every(({ id }) => doneStepIds.includes(id)));
  return {
    notBeforeEpochMs: instant('notBeforeUtc'),
    finishByEpochMs: instant('finishByUtc'),
    lockedStartEpochMs: instant('startUtc'),
    lockedHandlingId: file.lockHandling ?? null,
    isDone,
    doneStepIds,
    doneMin: file.doneMin ?? 0,
    tools: file.tools ?? [],
  };
}

const isEmpty = (order: JobOrder): boolean =>
  order.notBeforeEpochMs === null &&
  order.finishByEpochMs === null &&
  order.lockedStartEpochMs === null &&
  order.lockedHandlingId === null &&
  !order.isDone &&
  order.doneStepIds.length === 0 &&
  order.doneMin === 0 &&
  order.tools.length === 0;

/** When what a job needs of the locker is ready, by its id; only jobs that have to wait for it. */
function readyTimes(
  entries: readonly (Entry & { readonly order: JobOrder })[],
  locker: OrderParts['locker'],
): ReadonlyMap<string, number> {
  const jobs = entries.flatMap(({ job }) => (job === null ? [] : [job]));
  const progress = new Map(entries.map(({ file, order }) => [file.id, order]));
  const found = readinessOf({ jobs, locker: lockerOf(locker), progress });
  return new Map(
    found.flatMap(({ jobId, fromEpochMs }): [string, number][] => (fromEpochMs === null ? [] : [[jobId, fromEpochMs]])),
  );
}

function latest(instants: readonly (number | null)[]): number | null {
  const known = instants.filter((instant) => instant !== null);
  return known.length === 0 ? null : Math.max(...known);
}

function instantOf(text: string | undefined, where: string, problems: Problem[]): number | null {
  if (text === undefined) return null;
  const read = parseUtc(text, where);
  if (read.ok) return read.value;
  problems.push(...read.problems);
  return null;
}

/** Not before, start and finish in this order; a finish leaves some time. */
function timeProblems(order: JobOrder, where: string): Problem[] {
  const { notBeforeEpochMs, finishByEpochMs, lockedStartEpochMs } = order;
  const early = { key: 'startUtc', what: 'It starts', epochMs: lockedStartEpochMs };
  const late = { key: 'finishByUtc', what: 'It is to be finished', epochMs: finishByEpochMs };
  const first = { what: 'before it may start', epochMs: notBeforeEpochMs };
  const start = { what: 'no later than its start', epochMs: lockedStartEpochMs };
  const pairs = [
    { later: early, earlier: first, isWrong: (gapMs: number) => gapMs < 0 },
    { later: late, earlier: first, isWrong: (gapMs: number) => gapMs <= 0 },
    { later: late, earlier: start, isWrong: (gapMs: number) => gapMs <= 0 },
  ];
  return pairs.flatMap(({ later, earlier, isWrong }) => {
    if (later.epochMs === null || earlier.epochMs === null || !isWrong(later.epochMs - earlier.epochMs)) return [];
    return [
      {
        code: 'passage.order-times',
        where: `${where}.${later.key}`,
        what: `${later.what} at ${formatUtc(later.epochMs)}, ${earlier.what} at ${formatUtc(earlier.epochMs)}.`,
        expected: 'notBeforeUtc (and readyUtc of what it needs), then startUtc, then finishByUtc',
        remedy: 'Correct one of the two instants.',
      },
    ];
  });
}

function readForbidden(
  file: OrderParts['forbidden'],
  at: { readonly where: string; readonly jobIds: readonly string[]; readonly problems: Problem[] },
): ForbiddenTime[] {
  return file.flatMap(({ fromUtc, toUtc, job }, index) => {
    const where = `${at.where}[${index}]`;
    const fromEpochMs = instantOf(fromUtc, `${where}.fromUtc`, at.problems);
    const toEpochMs = instantOf(toUtc, `${where}.toUtc`, at.problems);
    if (job !== undefined && !at.jobIds.includes(job))
      at.problems.push(
        unknownName({ code: 'passage.job-unknown', kind: 'job', name: job, known: at.jobIds }, `${where}.job`),
      );
    if (fromEpochMs === null || toEpochMs === null) return [];
    if (toEpochMs <= fromEpochMs) at.problems.push(forbiddenOrder({ fromUtc, toUtc }, where));
    return [{ fromEpochMs, toEpochMs, jobId: job ?? null }];
  });
}

const forbiddenOrder = (span: { fromUtc: string; toUtc: string }, where: string): Problem => ({
  code: 'passage.forbidden-order',
  where,
  what: `It ends at ${span.toUtc}, not after it begins at ${span.fromUtc}.`,
  expected: 'an end after the beginning',
  remedy: 'Exchange the two, or correct the date.',
});
