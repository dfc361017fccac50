import { readinessOf, readinessWords, type JobReadiness } from '../../lib/jobs/index.ts';
import type { Passage } from '../../lib/passage/index.ts';
import { formatUtc } from '../../lib/time/index.ts';
import { reportProblems, takeApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { readPassageFile } from './read-passage.ts';

export const READY_HELP = `slatch jobs ready PASSAGE [--json]

  Whether each job can be begun with what is on board: ready, from an instant, once another job has made what it needs,
  not, or not known because nobody has counted. With the amounts, what could be done without, and which less important
  job goes short when this one takes its share: the more important job takes first, the reserve stays. The plan goes by
  the same: it places a job no earlier than it is ready, and none that is not.

  slatch jobs ready sample-forecasts/demo-passage.json
`;

/** `slatch jobs ready`. */
export async function printReadiness(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('no passage file is given.');
  if (others.length > 0) throw new WrongUse(`one passage file at a time; "${others.join(' ')}" is too much.`);
  const passage = await readPassageFile(file, io);
  if (!passage.ok) {
    reportProblems(io, passage.problems);
    return 1;
  }
  const { jobs, locker, orders } = passage.value;
  const found = readinessOf({ jobs, locker, progress: orders.jobs });
  io.out(given.flags.has('json') ? jsonText(passage.value, found) : readinessText(passage.value, found));
  return 0;
}

const nameOf = ({ jobs }: Passage, jobId: string): string => jobs.find(({ id }) => id === jobId)?.name ?? jobId;

function readinessText(passage: Passage, found: readonly JobReadiness[]): string {
  if (found.length === 0) return 'The passage has no jobs.\n';
  const width = Math.max(...found.map(({ jobId }) => jobId.length));
  return found
    .flatMap((job) => [
      `${job.jobId.padEnd(width)}  ${statusWords(job)}: ${nameOf(passage, job.jobId)}`,
      ...job.findings
        .filter((finding) => !isOnlyShared(finding))
        .map(readinessWords)
        .flatMap(({ text, remedies }) => [
          `${' '.repeat(width)}    ${text}`,
          ...remedies.map((remedy) => `${' '.repeat(width)}      - ${remedy}`),
        ]),
    ])
    .concat(sharedText(found))
    .map((line) => `${line}\n`)
    .join('');
}

/** A tool that several jobs use and none holds is in nobody's way: it is told once for all of them. */
const isOnlyShared = (finding: JobReadiness['findings'][number]): boolean =>
  finding.code === 'tool-shared' && !finding.isHeldHere;

function sharedText(found: readonly JobReadiness[]): string[] {
  const tools = found.flatMap(({ findings }) =>
    findings.flatMap((finding) => (finding.code === 'tool-shared' && isOnlyShared(finding) ? [finding.tool] : [])),
  );
  return tools.length === 0 ? [] : ['', `Used by several jobs, one at a time: ${[...new Set(tools)].join(', ')}.`];
}

function statusWords({ status, fromEpochMs, madeByIds }: JobReadiness): string {
  if (status === 'not') return 'not ready';
  if (status === 'unknown') return 'not known';
  if (status !== 'later') return status;
  const made = madeByIds.map((id) => `"${id}"`).join(', ');
  return [
    ...(fromEpochMs === null ? [] : [`ready from ${formatUtc(fromEpochMs)}`]),
    ...(made === '' ? [] : [`ready once ${made} is done`]),
  ].join(' and ');
}

function jsonText(passage: Passage, found: readonly JobReadiness[]): string {
  const jobs = found.map(({ jobId, status, fromEpochMs, madeByIds, findings }) => ({
    jobId,
    name: nameOf(passage, jobId),
    status,
    readyFromUtc: fromEpochMs === null ? null : formatUtc(fromEpochMs),
    madeByJobIds: madeByIds,
    findings: findings.map((finding) => ({ ...publishedFinding(finding), ...readinessWords(finding) })),
  }));
  return `${JSON.stringify({ jobs }, null, 2)}\n`;
}

/** A finding with its instant as text. */
function publishedFinding(finding: JobReadiness['findings'][number]): object {
  if (!('readyEpochMs' in finding)) return finding;
  const { readyEpochMs, ...rest } = finding;
  return { ...rest, readyUtc: formatUtc(readyEpochMs) };
}
