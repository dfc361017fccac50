import type { Passage } from '../../lib/passage/index.ts';
import { readLocker, toLockerFile } from '../../lib/passage/index.ts';
import type { Result } from '../../lib/result/index.ts';
import { lockerChanges, lockerCsv, readLockerCsv, type Locker } from '../../lib/stock/index.ts';
import { command, reportProblems, takeApart, WrongUse } from './arguments.ts';
import type { CommandIo } from './command.ts';
import { changesText, lockerText } from './locker/locker-text.ts';
import { readUtf8 } from './locker/read-utf8.ts';
import { readPassageFile } from './read-passage.ts';

const HELP = `slatch locker PASSAGE [--csv | --json]
slatch locker PASSAGE --read FILE.csv [--csv | --json]

  What is on board: amount, reserve, what may be taken, where it is stowed.
    --csv    the locker as a table: item,kind,amount,unit,keep,place,length_mm,diameter_mm,ready_utc
    --json   the locker as a passage file holds it
    --read   the locker as it would be with this table in its place: what changes, then the JSON for the passage file.
             Nothing is written; with --json the changes are in the answer, under "changes"

  The table has a header; columns may stand in any order, and all but item, amount and unit may be left out. Cells are
  parted by commas, or by semicolons with decimal point or comma, by what the header says. kind is material (used up),
  tool (comes back) or bar (cut to length: length_mm and diameter_mm of one, unit pieces, a line for each size). A text
  that begins with = + - or @ is written with an apostrophe before it, so that no spreadsheet runs it as a formula; read,
  the apostrophe is taken off.

  slatch locker sample-forecasts/demo-passage.json --csv > locker.csv
  slatch locker sample-forecasts/demo-passage.json --read locker.csv
`;

/** `slatch locker`. */
export const lockerCommand = command({ name: 'locker', help: HELP, run: printLocker });

interface LockerArguments {
  readonly file: string;
  readonly tableFile: string | null;
  readonly form: 'text' | 'csv' | 'json';
}

function lockerArguments(args: readonly string[]): LockerArguments {
  const given = takeApart(args, { csv: 'flag', json: 'flag', read: 'text' });
  if (typeof given === 'string') throw new WrongUse(given);
  const [file, ...others] = given.files;
  if (file === undefined) throw new WrongUse('no passage file is given.');
  if (others.length > 0) throw new WrongUse(`one passage file at a time; "${others.join(' ')}" is too much.`);
  if (given.flags.has('csv') && given.flags.has('json')) throw new WrongUse('--csv or --json, not both.');
  const form = given.flags.has('csv') ? 'csv' : given.flags.has('json') ? 'json' : 'text';
  return { file, tableFile: given.texts.get('read') ?? null, form };
}

async function printLocker(args: readonly string[], io: CommandIo): Promise<number> {
  const { file, tableFile, form } = lockerArguments(args);
  const passage = await readPassageFile(file, io);
  if (!passage.ok) return refuse(io, passage.problems);
  const { locker } = passage.value;
  const read = tableFile === null ? null : await lockerIn(tableFile, passage.value, io);
  if (read !== null && !read.ok) return refuse(io, read.problems);
  const answer = { passage: passage.value, locker: read === null ? locker : read.value };
  io.out(form === 'csv' ? lockerCsv(answer.locker) : read === null ? plain(answer, form) : changed(answer, form));
  return 0;
}

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

/** The locker of a table, counted in the units the jobs of the passage need. */
async function lockerIn(file: string, { jobs }: Passage, io: CommandIo): Promise<Result<Locker>> {
  const text = await readUtf8(file, io);
  if (!text.ok) return text;
  const locker = readLockerCsv(text.value, file);
  return locker.ok ? readLocker(toLockerFile(locker.value), file, jobs) : locker;
}

interface Answer {
  readonly passage: Passage;
  readonly locker: Locker;
}

const plain = ({ locker }: Answer, form: 'text' | 'json'): string =>
  form === 'json' ? jsonText({ locker: toLockerFile(locker) }) : lockerText(locker);

function changed({ passage, locker }: Answer, form: 'text' | 'json'): string {
  const changes = lockerChanges(passage.locker, locker);
  const file = { locker: toLockerFile(locker) };
  if (form === 'text') return `${changesText(changes)}\n${jsonText(file)}`;
  const lines = changes.map(({ before, after, ...change }) => ({
    ...change,
    before: before === null ? null : toLockerFile({ items: [before] })[0],
    after: after === null ? null : toLockerFile({ items: [after] })[0],
  }));
  return jsonText({ ...file, changes: lines });
}

const jsonText = (value: unknown): string => `${JSON.stringify(value, null, 2)}\n`;
