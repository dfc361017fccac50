import { okUnless, type Problem, type Result } from '../result/index.ts';
import type { NumberedEntry } from './entry.ts';
import { readLogEntry } from './read-entry.ts';

/** A log file as far as it can be read. */
export interface LogRead {
  /** Every line that is an entry, with the number of its line; corrections are not applied. */
  readonly entries: readonly NumberedEntry[];
  /** What is wrong with whole lines, each with its line number. */
  readonly problems: readonly Problem[];
  /** The last line where it broke off before its end, as a power cut leaves it: it was never acknowledged. */
  readonly torn: TornLine | null;
}

export interface TornLine {
  readonly text: string;
  readonly problem: Problem;
}

/** Longest log read [characters]; some 20 years of an entry an hour. Ours. */
const MOST_CHARACTERS = 50_000_000;

/**
 * Reads a log as JSON Lines: line k is entry number k. Line ends are LF or CRLF, a byte order mark is passed over.
 *
 * A last line without a line end that is no whole JSON was torn; one that is whole lost only its line end and counts.
 *
 * @returns codes of problems: `log.too-large`, `log.line-empty`, `log.not-json`, and those of `readLogEntry`; of the torn
 *   line `log.torn`
 */
export function readLog(text: string, where: string): LogRead {
  if (text.length > MOST_CHARACTERS) return { entries: [], problems: [tooLarge(text.length, where)], torn: null };
  const lines = text.replace(/^\uFEFF/, '').split('\n');
  const last = lines.pop() ?? '';
  const entries: NumberedEntry[] = [];
  const problems: Problem[] = [];
  const take = (raw: unknown, index: number): void => {
    const entry = readLogEntry(raw, lineAt(where, index));
    if (entry.ok) entries.push({ number: index + 1, entry: entry.value });
    else problems.push(...entry.problems);
  };
  for (const [index, line] of lines.entries()) {
    const json = jsonOf(line);
    if (json.ok) take(json.value, index);
    else problems.push(badLine(line, { message: json.message, where: lineAt(where, index) }));
  }
  if (last === '') return { entries, problems, torn: null };
  const json = jsonOf(last);
  if (!json.ok) return { entries, problems, torn: { text: last, problem: tornLine(lineAt(where, lines.length)) } };
  take(json.value, lines.length);
  return { entries, problems, torn: null };
}

/**
 * The entries of a log, or every problem of its lines. A torn last line is left out without a word: who can tell the
 * user uses `readLog`.
 */
export function parseLog(text: string, where: string): Result<readonly NumberedEntry[]> {
  const { entries, problems } = readLog(text, where);
  return okUnless(problems, () => entries);
}

const lineAt = (where: string, index: number): string => `${where}, line ${index + 1}`;

function jsonOf(line: string): { ok: true; value: unknown } | { ok: false; message: string } {
  try {
    const value: unknown = JSON.parse(line);
    return { ok: true, value };
  } catch (error) {
    return { ok: false, message: error instanceof Error ? error.message : String(error) };
  }
}

function badLine(line: string, { message, where }: { readonly message: string; readonly where: string }): Problem {
  if (line.trim() === '')
    return {
      code: 'log.line-empty',
      where,
      what: 'The line is empty.',
      expected: 'one entry in every line: the number of the line is the number of the entry',
      remedy: 'Put the line back as it was; what is wrong is corrected by an entry of its own.',
    };
  return {
    code: 'log.not-json',
    where,
    what: `The line is not JSON: ${message}.`,
    expected: 'one entry as JSON (RFC 8259) on one line',
    remedy: 'Put the line back as it was; what is wrong is corrected by an entry of its own.',
  };
}

const tornLine = (where: string): Problem => ({
  code: 'log.torn',
  where,
  what: 'The last line breaks off before its end, as after a power cut; it is left out.',
  expected: 'a whole entry and a line end',
  remedy: 'Write the entry again.',
});

const tooLarge = (characterCount: number, where: string): Problem => ({
  code: 'log.too-large',
  where,
  what: `The log has ${characterCount} characters.`,
  expected: `at most ${MOST_CHARACTERS}`,
  remedy: 'Begin a new log for a new passage.',
});
