import {
  appendProblems,
  entryWords,
  formatLogEntry,
  readLogEntry,
  type LogEntryFile,
  type NumberedEntry,
} from '../../../lib/log/index.ts';
import type { Passage } from '../../../lib/passage/index.ts';
import { failed, ok, okUnless, type Result } from '../../../lib/result/index.ts';
import { formatUtc } from '../../../lib/time/index.ts';
import { instantOption, reportProblems, WrongUse, type TakenApart } from '../arguments.ts';
import type { CommandIo } from '../command.ts';
import { readPassageFile } from '../read-passage.ts';
import { appendLine } from './append-line.ts';
import { logArguments, nowGiven, plainNumber } from './arguments.ts';
import { correctionOf } from './correction.ts';
import { ENTRY_OPTIONS, givenStatement } from './entry-options.ts';
import { isAbsent, readLogFile, type LogFile } from './log-file.ts';
import { readStandardInput } from './standard-input.ts';

export const ADD_HELP = `slatch log add [PASSAGE] --log FILE.jsonl OPTIONS [--json]

  Adds one entry at the end of a log (JSON Lines; line k is entry k), and says its number once it is on the disk. The
  file is made if it is not there. With PASSAGE jobs and steps are checked, and its clock is the one that counts.

  What was seen   --position TEXT, or --lat D --lon D; --sail-state ID
                  --wind-kn N [--wind-from D]           true wind, direction it blows from
                  --apparent-kn N --apparent-deg D --heading D --boat-kn N     angle from the bow, port negative
                  --gust-kn N --pressure-hpa N --sea-m N --period-s N --visibility-nm N --air-c N --water-c N
                  --sky clear|partly-cloudy|overcast|squalls|fog --rain yes|no
  Sleep           --sleep START/END
  A job           --job ID --event started|safe-point|stopped|done [--step ID] [--worked-min N]
  Anything        --note TEXT, alone or with the others
  Correction      --corrects N with the options that were wrong (the rest stays as in entry N), or --corrects N --withdraw
  As JSON         --stdin reads one entry from standard input instead

  --at UTC   when it was (default: now; of a correction, when the entry was)
  --now UTC  the clock, instead of the live one
  --json     the entry with its number as JSON

  slatch log add --log log.jsonl --position "35-12S 178-40E" --wind-kn 9 --wind-from 210 --pressure-hpa 1021.5
  slatch log add sample-forecasts/demo-passage.json --log log.jsonl --job drop --event done --worked-min 40
`;

/** `slatch log add`. */
export async function addEntry(args: readonly string[], io: CommandIo): Promise<number> {
  const kinds = {
    ...ENTRY_OPTIONS,
    corrects: 'text',
    withdraw: 'flag',
    stdin: 'flag',
    json: 'flag',
    now: 'text',
  } as const;
  const given = logArguments(args, kinds);
  const passage = given.passageFile === null ? ok(null) : await readPassageFile(given.passageFile, io);
  if (!passage.ok) return refuse(io, passage.problems);
  const log = (await isAbsent(given.logFile, io)) ? ok(EMPTY) : await readLogFile(given.logFile, io);
  if (!log.ok) return refuse(io, log.problems);
  const nowEpochMs = nowGiven(given, passage.value?.fixedNowEpochMs ?? null, io);
  const entry = await entryGiven(given, { entries: log.value.entries, passage: passage.value, nowEpochMs });
  if (!entry.ok) return refuse(io, entry.problems);
  const { torn } = log.value;
  if (torn !== null) io.err(`The last line had been torn and is taken out of ${given.logFile}: ${torn.text}\n`);
  reportProblems(io, log.value.problems);
  const line = formatLogEntry(entry.value);
  const number = await written({ file: given.logFile, line, ...log.value });
  if (!number.ok) return refuse(io, number.problems);
  io.out(
    given.flags.has('json')
      ? `${JSON.stringify({ number: number.value, entry: entry.value }, null, 2)}\n`
      : `${number.value}  ${formatUtc(Date.parse(entry.value.atUtc))}  ${entryWords(entry.value)}\n`,
  );
  return 0;
}

const EMPTY: LogFile = { entries: [], problems: [], torn: null, wholeOctetCount: 0, isEndMissing: false };

function refuse(io: CommandIo, problems: Parameters<typeof reportProblems>[1]): number {
  reportProblems(io, problems);
  return 1;
}

interface Context {
  readonly entries: readonly NumberedEntry[];
  readonly passage: Passage | null;
  readonly nowEpochMs: number;
}

/** The entry the command line or standard input gives, checked alone and against the log, the jobs and the clock. */
async function entryGiven(given: TakenApart, of: Context): Promise<Result<LogEntryFile>> {
  const raw = given.flags.has('stdin') ? await fromInput(given) : ok(fromOptions(given, of));
  if (!raw.ok) return raw;
  const where = given.flags.has('stdin') ? 'standard input' : 'the entry';
  const entry = readLogEntry(raw.value, where);
  if (!entry.ok) return entry;
  const { entries, passage, nowEpochMs } = of;
  const appending = { entry: entry.value, entries, nowEpochMs, ...(passage === null ? {} : { jobs: passage.jobs }) };
  return okUnless(appendProblems(appending, where), () => entry.value);
}

async function fromInput(given: TakenApart): Promise<Result<unknown>> {
  const mixed = [...Object.keys(ENTRY_OPTIONS), 'corrects'].find((name) => given.texts.has(name));
  if (mixed !== undefined || given.flags.has('withdraw'))
    throw new WrongUse(`--stdin gives the whole entry; leave --${mixed ?? 'withdraw'} out.`);
  const text = await readStandardInput();
  try {
    const value: unknown = JSON.parse(text);
    return ok(value);
  } catch (error) {
    return failed({
      code: 'log.not-json',
      where: 'standard input',
      what: `It is not JSON: ${error instanceof Error ? error.message : String(error)}.`,
      expected: 'one entry as JSON',
      remedy: 'Look for a missing comma, bracket or quotation mark.',
    });
  }
}

function fromOptions(given: TakenApart, of: Context): object {
  const statement = givenStatement(given);
  const at = instantOption(given, 'at');
  const nowUtc = formatUtc(of.nowEpochMs);
  const corrects = plainNumber(given, 'corrects');
  if (corrects !== null) {
    const right = { statement, atEpochMs: at, isWithdrawn: given.flags.has('withdraw') };
    return correctionOf({ corrects, nowUtc, ...right }, of.entries);
  }
  if (given.flags.has('withdraw')) throw new WrongUse('--withdraw needs --corrects N.');
  if (statement === null) throw new WrongUse('nothing is given to write down.');
  return { atUtc: at === null ? nowUtc : formatUtc(at), ...statement };
}

async function written(line: Parameters<typeof appendLine>[0]): Promise<Result<number>> {
  try {
    return ok(await appendLine(line));
  } catch (error) {
    return failed({
      code: 'file.unwritable',
      where: line.file,
      what: `The entry cannot be written: ${error instanceof Error ? error.message : String(error)}.`,
      expected: 'a file that can be written',
      remedy: 'Check the folder, its rights, and the space on the disk.',
    });
  }
}
