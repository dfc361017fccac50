import { failed, okUnless, type Problem, ProblemList, type Result } from '../result/index.ts';
import { parseJsonText } from '../shape/index.ts';
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
  const problems = new ProblemList(where);
  const take = (raw: unknown, index: number): void => {
    const entry = readLogEntry(raw, lineAt(where, index));
    if (entry.ok) entries.push({ number: index + 1, entry: entry.value });
    else problems.add(entry.problems);
  };
  for (const [index, line] of lines.entries()) {
    const json = jsonOf(line, lineAt(where, index));
    if (json.ok) take(json.value, index);
    else problems.add(json.problems);
  }
  if (last === '') return { entries, problems: problems.all(), torn: null };
  const json = jsonOf(last, lineAt(where, lines.length));
  if (json.ok) take(json.value, lines.length);
  else if (json.problems[0].code === 'log.not-json' || json.problems[0].code === 'log.line-empty')
    return { entries, problems: problems.all(), torn: { text: last, problem: tornLine(lineAt(where, lines.length)) } };
  else problems.add(json.problems);
  return { entries, problems: problems.all(), torn: null };
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

/** Longest line read [characters]: notes are the longest an entry can hold. Ours. */
const MOST_LINE_CHARACTERS = 100_000;

function jsonOf(line: string, where: string): Result<unknown> {
  if (line.trim() === '') return failed(emptyLine(where));
  const json = parseJsonText(line, {
    where,
    codeWord: 'log',
    kind: 'line',
    most: { characterCount: MOST_LINE_CHARACTERS, remedy: REMEDY },
  });
  // The line alone is the place: what stands in it was written by a program.
  return json.ok ? json : failed({ ...json.problems[0], where, expected: EXPECTED, remedy: REMEDY });
}

const EXPECTED = 'one entry as JSON (RFC 8259) on one line';
const REMEDY = 'Put the line back as it was; what is wrong is corrected by an entry of its own.';

const emptyLine = (where: string): Problem => ({
  code: 'log.line-empty',
  where,
  what: 'The line is empty.',
  expected: 'one entry in every line: the number of the line is the number of the entry',
  remedy: REMEDY,
});

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
