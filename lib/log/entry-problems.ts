import { unknownName, type Job } from '../jobs/index.ts';
import type { Problem } from '../result/index.ts';
import { formatUtc, MS_PER_MIN } from '../time/index.ts';
import type { JobEventFile, LogEntryFile, NumberedEntry, StatementFile } from './entry.ts';
import { instantOf } from './effective.ts';

/** Clocks on board differ by so much: an entry is not of the future for it. Ours. */
const CLOCK_ROOM_MIN = 1;

/** What an entry to be written is held against. */
export interface Appending {
  readonly entry: LogEntryFile;
  /** The log so far. */
  readonly entries: readonly NumberedEntry[];
  /** Left out: jobs and steps are not checked. */
  readonly jobs?: readonly Job[];
  readonly nowEpochMs: number;
}

/**
 * Why an entry that is well written by itself may not be added to a log: `log.future`, `log.corrects-nothing`,
 * `log.corrects-correction`, `log.job-unknown`, `log.step-unknown`.
 */
export function appendProblems({ entry, entries, jobs, nowEpochMs }: Appending, where: string): readonly Problem[] {
  return [
    ...futureProblems(entry, nowEpochMs, where),
    ...correctionProblems(entry, writtenBefore(entries), where),
    ...(jobs === undefined ? [] : jobProblems(entry, jobs, where)),
  ];
}

/**
 * What is wrong between the entries of a log, in the order of their numbers, and between them and the jobs: the codes of
 * `appendProblems` but `log.future`. Such a log can still be used: a correction that names nothing corrects nothing, events
 * of strange jobs count for nothing.
 */
export function logProblems(
  entries: readonly NumberedEntry[],
  jobs?: readonly Job[],
  where = 'log',
): readonly Problem[] {
  const all = writtenBefore(entries);
  return entries.flatMap(({ number, entry }, i) => {
    const before = { find: earlierThan(number, all), lastNumber: entries[i - 1]?.number ?? null };
    const at = `${where}, entry ${number}`;
    return [...correctionProblems(entry, before, at), ...(jobs === undefined ? [] : jobProblems(entry, jobs, at))];
  });
}

/** What a correction may name. */
interface WrittenBefore {
  readonly find: (number: number) => NumberedEntry | undefined;
  /** null: nothing was written before. */
  readonly lastNumber: number | null;
}

function writtenBefore(entries: readonly NumberedEntry[]): WrittenBefore {
  const byNumber = new Map(entries.map((numbered) => [numbered.number, numbered]));
  return { find: (number) => byNumber.get(number), lastNumber: entries.at(-1)?.number ?? null };
}

const earlierThan =
  (limitNumber: number, { find }: WrittenBefore): WrittenBefore['find'] =>
  (number) =>
    number < limitNumber ? find(number) : undefined;

function futureProblems(entry: LogEntryFile, nowEpochMs: number, where: string): Problem[] {
  const texts = entry.kind === 'sleep' ? [entry.atUtc, entry.endUtc] : [entry.atUtc];
  const own = texts
    .filter((text) => instantOf(text) > nowEpochMs + CLOCK_ROOM_MIN * MS_PER_MIN)
    .slice(0, 1)
    .map((text) => ({
      code: 'log.future',
      where,
      what: `${formatUtc(instantOf(text))} is still to come: it is ${formatUtc(nowEpochMs)} now.`,
      expected: 'what has happened already',
      remedy: 'Correct the date or the hour; is it ship’s time instead of UTC?',
    }));
  if (entry.kind !== 'correction' || entry.by === null) return own;
  return [...own, ...futureProblems(entry.by, nowEpochMs, `${where}, by`)];
}

function correctionProblems(entry: LogEntryFile, before: WrittenBefore, where: string): Problem[] {
  if (entry.kind !== 'correction') return [];
  const found = before.find(entry.corrects);
  const at = `${where}, corrects`;
  if (found === undefined)
    return [
      {
        code: 'log.corrects-nothing',
        where: at,
        what: `There is no entry ${entry.corrects} before this one.`,
        expected: before.lastNumber === null ? 'an entry before it' : `a number up to ${before.lastNumber}`,
        remedy: 'Take the number from the list of the log.',
      },
    ];
  if (found.entry.kind !== 'correction') return [];
  return [
    {
      code: 'log.corrects-correction',
      where: at,
      what: `Entry ${entry.corrects} is itself a correction, of entry ${found.entry.corrects}.`,
      expected: 'the number of the entry as it was first written; the last correction of it holds',
      remedy: `Correct entry ${found.entry.corrects}.`,
    },
  ];
}

function jobProblems(entry: LogEntryFile, jobs: readonly Job[], where: string): Problem[] {
  const statement: StatementFile | null = entry.kind === 'correction' ? entry.by : entry;
  if (statement?.kind !== 'job') return [];
  return eventProblems(statement, jobs, entry.kind === 'correction' ? `${where}, by` : where);
}

function eventProblems({ jobId, stepId }: JobEventFile, jobs: readonly Job[], where: string): Problem[] {
  const job = jobs.find(({ id }) => id === jobId);
  if (job === undefined) {
    const known = jobs.map(({ id }) => id);
    return [unknownName({ code: 'log.job-unknown', kind: 'job', name: jobId, known }, `${where}, jobId`)];
  }
  if (stepId === undefined || job.steps.some(({ id }) => id === stepId)) return [];
  const known = job.steps.map(({ id }) => id);
  return [unknownName({ code: 'log.step-unknown', kind: 'step', name: stepId, known }, `${where}, stepId`)];
}
