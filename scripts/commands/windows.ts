import { publishedWindows, type PublishedWindows, windowsText } from '../../lib/brief/index.ts';
import { type PlanInput, prepareWindows } from '../../lib/planner/index.ts';
import { didYouMean } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';

const HELP = `slatch windows PASSAGE [--job ID] [--now UTC] [--until UTC] [--seed N] [--json]

  All windows of every job, or of one: intervals of start times from which its core and its contingency fit, with
  probability, room and what binds; where there is none, the nearest miss. A window is conditional when the forecast
  does not hold something the job has a limit for; those stand after the others.
${passageHelp}
  slatch windows sample-forecasts/demo-passage.json --job stitch
`;

/** `slatch windows`. */
export const windowsCommand = command({
  name: 'windows',
  help: HELP,
  run: printWindows,
});

async function printWindows(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args, ['job']);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) {
    reportProblems(io, loaded.problems);
    return 1;
  }
  reportProblems(io, loaded.value.forecast.problems);
  const input = passageGiven(given, loaded.value, io);
  const jobId = given.texts.get('job');
  const known = input.passage.jobs.map((job) => job.id);
  if (jobId !== undefined && !known.includes(jobId)) {
    reportProblems(io, [unknownJob(jobId, known)]);
    return 1;
  }
  const found = prepareWindows(input);
  if (!found.ok) {
    reportProblems(io, found.problems);
    return 1;
  }
  const windows = publishedWindows(found.value);
  const asked = { jobs: windows.jobs.filter((job) => jobId === undefined || job.jobId === jobId) };
  io.out(given.json ? `${JSON.stringify(asked, null, 2)}\n` : textOf(asked, input));
  return 0;
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
