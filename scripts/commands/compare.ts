import { comparedPlansText, planChanges, planChangesText, readPlanToCompare } from '../../lib/brief/index.ts';
import { command, numberOption, reportProblems, takeApart, WrongUse } from './arguments.ts';
import { textIn } from './check.ts';
import type { CommandIo } from './command.ts';

const HELP = `slatch compare OLD.json NEW.json [--ship-time-min MIN] [--json]

  What changed between two plans, each the JSON of slatch plan: what moved and by how much, which handling, how sure,
  what is newly planned, what no longer and why, what is done, where the fallback is used.

  --ship-time-min  minutes that ship's time is ahead of UTC; without it hours are UTC
  --json           the changes as JSON instead of text

  slatch compare monday.json tuesday.json --ship-time-min 720
`;

/** `slatch compare`. */
export const compareCommand = command({
  name: 'compare',
  help: HELP,
  run: printChanges,
});

/** Ship's time is at most a day away from UTC. */
const MOST_OFFSET_MIN = 24 * 60;

async function printChanges(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, { 'ship-time-min': 'text', json: 'flag' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [oldFile, newFile, ...others] = given.files;
  if (oldFile === undefined || newFile === undefined || others.length > 0) throw new WrongUse('two plans are needed.');
  const shipTimeOffsetMin =
    numberOption(given, 'ship-time-min', { least: -MOST_OFFSET_MIN, most: MOST_OFFSET_MIN }) ?? 0;
  const [older, newer] = await Promise.all([oldFile, newFile].map((file) => planIn(file, io)));
  if (older === undefined || newer === undefined) throw new Error('two files were asked for');
  if (!older.ok || !newer.ok) {
    reportProblems(
      io,
      [older, newer].flatMap((read) => (read.ok ? [] : read.problems)),
    );
    return 1;
  }
  if (older.value.passageName !== newer.value.passageName)
    io.err(`These are plans of two passages: ${older.value.passageName} and ${newer.value.passageName}.\n`);
  const changes = planChanges(older.value, newer.value);
  const wording = { shipTimeOffsetMin };
  const texts = planChangesText(changes, wording);
  const published = changes.map((change, k) => ({ ...change, text: texts[k] ?? '' }));
  io.out(
    given.flags.has('json')
      ? `${JSON.stringify({ changes: published }, null, 2)}\n`
      : `${comparedPlansText({ older: older.value, newer: newer.value }, changes, wording)}\n`,
  );
  return 0;
}

async function planIn(file: string, io: CommandIo): Promise<ReturnType<typeof readPlanToCompare>> {
  const text = await textIn(file, io);
  return text.ok ? readPlanToCompare(text.value, file) : text;
}
