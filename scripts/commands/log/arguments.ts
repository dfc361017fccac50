import { formatProblem } from '../../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../../lib/time/index.ts';
import { instantOption, takeApart, WrongUse, type OptionKinds, type TakenApart } from '../arguments.ts';
import type { CommandIo } from '../command.ts';

/** Arguments of a subcommand that works on one log file. */
export interface LogArguments extends TakenApart {
  readonly logFile: string;
  /** null: none is given. */
  readonly passageFile: string | null;
}

/** Takes the arguments apart; `--log` must be given, a passage file may be. */
export function logArguments(args: readonly string[], kinds: OptionKinds): LogArguments {
  const given = takeApart(args, { ...kinds, log: 'text' });
  if (typeof given === 'string') throw new WrongUse(given);
  const logFile = given.texts.get('log');
  if (logFile === undefined || logFile === '') throw new WrongUse('--log FILE.jsonl is missing.');
  const [passageFile = null, ...others] = given.files;
  if (others.length > 0) throw new WrongUse(`one passage file at a time; "${others.join(' ')}" is too much.`);
  return { ...given, logFile, passageFile };
}

/** Subcommands of the log alone take no passage. */
export function withoutPassage(given: LogArguments): LogArguments {
  if (given.passageFile !== null)
    throw new WrongUse(`no passage is needed; "${given.passageFile}" is too much. The log is named with --log.`);
  return given;
}

/** *Now*: --now, else the passage's clock, else the live one, to the minute. */
export function nowGiven(given: TakenApart, fixedNowEpochMs: number | null, io: CommandIo): number {
  return instantOption(given, 'now') ?? fixedNowEpochMs ?? Math.floor(io.nowEpochMs() / MS_PER_MIN) * MS_PER_MIN;
}

/** A number given as text, or null; text that is none is wrong use. What it may be is for the entry's reader to say. */
export function plainNumber(given: TakenApart, name: string): number | null {
  const text = given.texts.get(name);
  if (text === undefined) return null;
  const value = text.trim() === '' ? Number.NaN : Number(text);
  if (!Number.isFinite(value)) throw new WrongUse(`--${name} ${text}: expected a number.`);
  return value;
}

/** `START/END`, two instants. */
export function spanOption(given: TakenApart, name: string): { startUtc: string; endUtc: string } | null {
  const text = given.texts.get(name);
  if (text === undefined) return null;
  const ends = text.split('/').map((part) => parseUtc(part, `--${name}`));
  const [start, end, ...more] = ends;
  if (start === undefined || end === undefined || more.length > 0)
    throw new WrongUse(`--${name} ${text}: expected START/END, such as 2026-05-27T10:30Z/2026-05-27T14:00Z.`);
  const wrong = ends.find((instant) => !instant.ok);
  if (wrong !== undefined && !wrong.ok) throw new WrongUse(formatProblem(wrong.problems[0]));
  if (!start.ok || !end.ok) throw new Error('two instants were read');
  return { startUtc: formatUtc(start.value), endUtc: formatUtc(end.value) };
}
