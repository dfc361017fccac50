import { publishedWindows, type PublishedWindows, windowsText } from '../../lib/brief/index.ts';
import { type PlanInput, prepareWindows } from '../../lib/planner/index.ts';
import { didYouMean, ok } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';
import { afterLog, loggedEntries, withoutLog } from './plan-log.ts';

const HELP = `slatch windows PASSAGE [--job ID] [--log LOG.jsonl] [--now UTC] [--until UTC] [--seed N] [--json]

  All windows of every job, or of one: intervals of start times from which its core and its contingency fit, with
  probability, room and what binds; where there is none, the nearest miss. A window is conditional when the forecast
  does not hold something the job has a limit for; those stand after the others.
${passageHelp}
  --log    what happened (slatch log): place, sails, what is done, own pace, and the weather seen, which shifts windows

  slatch windows sample-forecasts/demo-passage.json --job stitch
`;

/** `slatch windows`. */
export const windowsCommand = command({
  name: 'windows',
  help: HELP,
  run: printWindows,
});

async function printWindows(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args, ['job', 'log']);
  const logFile = given.texts.get('log');
  const entries = logFile === undefined ? ok(null) : await loggedEntries(logFile, io);
  if (!entries.ok) return refuse(io, entries.problems);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const before = passageGiven(given, loaded.value, io);
  const { input, notes } = entries.value === null ? withoutLog(before) : afterLog(before, entries.value);
  const jobId = given.texts.get('job');
  const known = input.passage.jobs.map((job) => job.id);
  if (jobId !== undefined && !known.includes(jobId)) return refuse(io, [unknownJob(jobId, known)]);
  const found = prepareWindows(input);
  if (!found.ok) return refuse(io, found.problems);
  const windows = publishedWindows(found.value);
  const asked = { jobs: windows.jobs.filter((job) => jobId === undefined || job.jobId === jobId) };
  for (const note of notes()) io.err(`${note}\n`);
  io.out(given.json ? `${JSON.stringify(asked, null, 2)}\n` : textOf(asked, input));
  return 0;
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

const textOf = (windows: PublishedWindows, { passage }: PlanInput): string =>
  passage.jobs.length === 0 ? 'The passage has no jobs.\n' : windowsText(windows, passage.settings);

function unknownJob(jobId: string, known: readonly string[]): Parameters<typeof reportProblems>[1][number] {
  const near = didYouMean(jobId, known);
  return {
    code: 'windows.job-unknown',
    where: `--job ${jobId}`,
    what: `The passage has no job "${jobId}".`,
    expected: known.length === 0 ? 'a passage with jobs' : `one of ${known.join(', ')}`,
    remedy: near === null ? 'Name one of its jobs, or leave --job out.' : `Did you mean "${near}"?`,
  };
}
