import { deckSheet, deckSheetText } from '../../lib/brief/index.ts';
import { planPassage } from '../../lib/planner/index.ts';
import { ok } from '../../lib/result/index.ts';
import { loadPassage } from '../../server/stores/passage-files.ts';
import { command, reportProblems, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { forecastProgress } from './forecast-progress.ts';
import { passageArguments, passageGiven, passageHelp } from './passage-arguments.ts';
import { standingPlan } from './plan.ts';
import { afterLog, loggedEntries, withoutLog } from './plan-log.ts';

const HELP = `slatch sheet PASSAGE --job ID [--log LOG.jsonl] [--standing PLAN.json] [--now UTC] [--until UTC] [--seed N] [--json]

  The deck sheet of one job, 80 columns wide, to be printed and taken on deck: window, numbers to start and to stop at,
  what to tick before the start, how the boat lies, the steps on a running clock with the times to beat, when to stop and
  how, parts and tools with their places, whom to tell, what to look at after. The passage is planned anew for it.
${passageHelp}
  --job       the job, by its id in the passage
  --log       what happened (slatch log): the sheet is of the passage after it
  --standing  the plan that stands, the JSON of slatch plan: kept unless a better one is found

  slatch sheet sample-forecasts/demo-passage.json --job drop
`;

/** `slatch sheet`. */
export const sheetCommand = command({ name: 'sheet', help: HELP, run: printSheet });

async function printSheet(args: readonly string[], io: CommandIo): Promise<number> {
  const given = passageArguments(args, ['job', 'log', 'standing']);
  const jobId = given.texts.get('job');
  if (jobId === undefined || jobId === '') throw new WrongUse('--job is missing: which job is the sheet for?');
  const standing = await standingPlan(given.texts.get('standing'), io);
  if (!standing.ok) return refuse(io, standing.problems);
  const logFile = given.texts.get('log');
  const entries = logFile === undefined ? ok(null) : await loggedEntries(logFile, io);
  if (!entries.ok) return refuse(io, entries.problems);
  const loaded = await loadPassage(given.file, { onProgress: forecastProgress(io) });
  if (!loaded.ok) return refuse(io, loaded.problems);
  reportProblems(io, loaded.value.forecast.problems);
  const known = loaded.value.passage.jobs.map(({ id }) => id);
  if (!known.includes(jobId)) throw new WrongUse(`--job ${jobId}: expected one of ${known.join(', ')}.`);
  const before = standing.value === null ? {} : { standing: standing.value };
  const input = { ...passageGiven(given, loaded.value, io), ...before };
  const logged = entries.value === null ? withoutLog(input) : afterLog(input, entries.value);
  const planned = planPassage(logged.input);
  if (!planned.ok) return refuse(io, planned.problems);
  const { picture } = planned.value;
  const plan = { ...planned.value.plan, planNumber: standing.value?.planNumber ?? null };
  const { passage, nowEpochMs } = logged.input;
  const sheet = deckSheet({ plan, picture, passage, jobId, nowEpochMs });
  if (!sheet.ok) return refuse(io, sheet.problems);
  io.out(given.json ? `${JSON.stringify(sheet.value, null, 2)}\n` : deckSheetText(sheet.value));
  return 0;
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}
