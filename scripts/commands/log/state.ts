import {
  jobStateWords,
  passageAfterLog,
  logProblems,
  type JobState,
  type PassageAfterLog,
} from '../../../lib/log/index.ts';
import type { Passage } from '../../../lib/passage/index.ts';
import { formatProblem, type Problem } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { reportProblems, WrongUse } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { readPassageFile } from '../read-passage.ts';
import { logArguments, nowGiven } from './arguments.ts';
import { readLogFile, reportLog } from './log-file.ts';

export const STATE_HELP = `slatch log state PASSAGE --log FILE.jsonl [--now UTC] [--json]

  Where things stand after the log: position and track ahead, what is set, sleep, every job not begun, under way, stopped
  or done, what still soaks or cures, what was taken off the locker, own pace; and what stands oddly in the log.

  slatch log state sample-forecasts/demo-passage.json --log log.jsonl
`;

/** `slatch log state`. */
export async function printState(args: readonly string[], io: CommandIo): Promise<number> {
  const given = logArguments(args, { json: 'flag', now: 'text' });
  if (given.passageFile === null) throw new WrongUse('no passage file is given.');
  const passage = await readPassageFile(given.passageFile, io);
  const log = await readLogFile(given.logFile, io);
  if (!passage.ok || !log.ok) {
    reportProblems(
      io,
      [passage, log].flatMap((read) => (read.ok ? [] : read.problems)),
    );
    return 1;
  }
  const nowEpochMs = nowGiven(given, passage.value.fixedNowEpochMs, io);
  const after = passageAfterLog(passage.value, log.value.entries, nowEpochMs);
  const odd = logProblems(log.value.entries, passage.value.jobs, given.logFile);
  const shown = { before: passage.value, after, nowEpochMs, odd };
  io.out(given.flags.has('json') ? jsonText(shown) : stateText(shown));
  return reportLog(log.value, io) ? 1 : 0;
}

interface Shown {
  readonly before: Passage;
  readonly after: PassageAfterLog;
  readonly nowEpochMs: number;
  readonly odd: readonly Problem[];
}

function stateText({ before, after, nowEpochMs, odd }: Shown): string {
  const notes = after.notes.filter(({ code }) => !isJobState(code)).map(({ text }) => text);
  const jobs = after.jobStates.flatMap((state) => {
    const job = before.jobs.find(({ id }) => id === state.jobId);
    return job === undefined ? [] : [`  ${jobStateWords(state, job)}`];
  });
  return [
    `${before.name}, ${formatUtc(nowEpochMs)}`,
    ...(notes.length === 0 ? ['Nothing in the log changes the passage.'] : notes),
    ...(jobs.length === 0 ? [] : ['Jobs:', ...jobs]),
    ...odd.map(formatProblem),
  ]
    .map((line) => `${line}\n`)
    .join('');
}

/** Said once, in the list of jobs. */
const isJobState = (code: string): boolean => /^log\.job-(not-begun|under-way|stopped|done)$/.test(code);

function jsonText({ after, nowEpochMs, odd }: Shown): string {
  const { passage, jobStates, notes } = after;
  const { start, track, watchkeeper, orders } = passage;
  const state = {
    nowUtc: formatUtc(nowEpochMs),
    start: { timeUtc: formatUtc(start.epochMs), ...start.position, sailState: start.sailStateId },
    track: track.waypoints,
    sleeps: watchkeeper.sleeps.map(({ startEpochMs, endEpochMs }) => ({
      startUtc: formatUtc(startEpochMs),
      endUtc: formatUtc(endEpochMs),
    })),
    jobs: jobStates.map((job) => ({
      ...publishedState(job),
      notBeforeUtc: utcOrNull(orders.jobs.get(job.jobId)?.notBeforeEpochMs ?? null),
    })),
    notes,
    odd,
  };
  return `${JSON.stringify(state, null, 2)}\n`;
}

/** An instant as text; null where there is none, or none in sight. */
const utcOrNull = (epochMs: number | null): string | null =>
  epochMs === null || !Number.isFinite(epochMs) ? null : formatUtc(epochMs);

const publishedState = (job: JobState): object => ({
  jobId: job.jobId,
  status: job.status,
  startedUtc: utcOrNull(job.startedEpochMs),
  lastUtc: utcOrNull(job.lastEpochMs),
  doneUtc: utcOrNull(job.doneEpochMs),
  finishedSteps: job.finishedSteps.map(({ stepId, atEpochMs }) => ({ stepId, finishedByUtc: utcOrNull(atEpochMs) })),
  safePointStepId: job.safePointStepId,
  workedMin: job.workedMin,
  doneMin: job.doneMin,
});
