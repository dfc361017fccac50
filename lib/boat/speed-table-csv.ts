import { failed, okUnless, type Problem, type Result } from '../result/index.ts';
import type { SpeedRow } from './boat.ts';
import { repeatedRows, rowProblems } from './check-boat.ts';

/** Longest table read [characters]; ten times that of 5000 rows. */
const MOST_CHARACTERS = 1_000_000;
const HEADER = ['twa_deg', 'tws_kn', 'boat_speed_kn'] as const;

/**
 * Reads a speed table from CSV with the header `twa_deg,tws_kn,boat_speed_kn`, columns in any order.
 *
 * @returns the rows, or `boat.csv-too-large`, `boat.csv-header`, `boat.csv-number`, and the problems of single rows
 */
export function parseSpeedTableCsv(text: string, where: string): Result<readonly SpeedRow[]> {
  if (text.length > MOST_CHARACTERS) return failed(tooLarge(text.length, where));
  const lines = text.replace(/^\uFEFF/, '').split(/\r?\n/);
  const names = (lines[0] ?? '').split(',').map((name) => name.trim().toLowerCase());
  const columns = HEADER.map((name) => names.indexOf(name));
  if (columns.includes(-1)) return failed(headerProblem(lines[0] ?? '', where));
  const problems: Problem[] = [];
  const rows: SpeedRow[] = [];
  for (const [index, line] of lines.entries()) {
    if (index === 0 || line.trim() === '') continue;
    const at = `${where}, line ${index + 1}`;
    const cells = line.split(',').map((cell) => cell.trim());
    const [twaDeg, twsKn, boatSpeedKn] = columns.map((column) => numberOf(cells[column] ?? ''));
    if (twaDeg === undefined || twsKn === undefined || boatSpeedKn === undefined)
      problems.push(numberProblem(line, at));
    else {
      const row = { twaDeg, twsKn, boatSpeedKn };
      problems.push(...rowProblems(row, at));
      rows.push(row);
    }
  }
  if (rows.length === 0 && problems.length === 0) problems.push(numberProblem('', `${where}, line 2`));
  return okUnless([...problems, ...repeatedRows(rows, where)], () => rows);
}

/** A table as CSV, in the order given. */
export function formatSpeedTableCsv(rows: readonly SpeedRow[]): string {
  const lines = rows.map((row) => `${row.twaDeg},${row.twsKn},${row.boatSpeedKn}`);
  return [HEADER.join(','), ...lines, ''].join('\n');
}

/** With an exponent too, as very small numbers are written. */
function numberOf(cell: string): number | undefined {
  const value = /^-?\d+(\.\d+)?(e-?\d{1,3})?$/.test(cell) ? Number(cell) : Number.NaN;
  return Number.isFinite(value) ? value : undefined;
}

const tooLarge = (characterCount: number, where: string): Problem => ({
  code: 'boat.csv-too-large',
  where,
  what: `The table has ${characterCount} characters.`,
  expected: `at most ${MOST_CHARACTERS}`,
  remedy: 'Leave out rows: a table needs no more than a few hundred.',
});

const headerProblem = (line: string, where: string): Problem => ({
  code: 'boat.csv-header',
  where: `${where}, line 1`,
  what: `The header is "${line}".`,
  expected: HEADER.join(','),
  remedy: 'Name the three columns in the first line; commas between, points in numbers.',
});

const numberProblem = (line: string, where: string): Problem => ({
  code: 'boat.csv-number',
  where,
  what: `"${line}" does not hold three numbers.`,
  expected: 'true wind angle, true wind speed, boat speed',
  remedy: 'Write numbers with a decimal point and commas between them.',
});
