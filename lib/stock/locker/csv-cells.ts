import { asItWas } from '../../csv/index.ts';
import { didYouMean, failed, ok, type Problem, type Result } from '../../result/index.ts';
import { parseUtc } from '../../time/index.ts';
import type { LockerColumn } from './csv-columns.ts';
import type { CsvCell, CsvDelimiter } from './csv-rows.ts';
import { LOCKER_KINDS, LOCKER_LIMITS } from './locker.ts';

const POINT_NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;
const COMMA_NUMBER = /^[+-]?(\d+,?\d*|,\d+)$/;

/** What a cell says, spaces round it passed over unless it is in quotes; null: it is empty. */
export function cellText(cell: CsvCell, { holds }: LockerColumn): string | null {
  const text = cell.isQuoted && holds === 'text' ? cell.text : cell.text.trim();
  return text.trim() === '' ? null : text;
}

/**
 * The value of a cell that is not empty.
 *
 * Numbers have a decimal point; where semicolons part the cells a decimal comma is read too, since spreadsheets write
 * both together. Between commas it is refused: "1,500" may be one and a half or fifteen hundred.
 *
 * @returns the value, or `stock.csv-value`, `time.not-an-instant`
 */
export function cellValue(
  text: string,
  column: LockerColumn,
  at: { readonly where: string; readonly delimiter: CsvDelimiter },
): Result<string | number> {
  if (column.holds === 'instant') return parseUtc(text, at.where);
  if (column.holds === 'kind') return kindOf(text, at.where);
  return column.holds === 'text' ? wordsOf(asItWas(text), at.where) : numberOf(text, column, at);
}

function kindOf(text: string, where: string): Result<string> {
  const kind = LOCKER_KINDS.find((known) => known === text.toLowerCase());
  if (kind !== undefined) return ok(kind);
  const near = didYouMean(text, LOCKER_KINDS);
  const remedy = near === null ? 'Choose one of these, or leave the cell empty.' : `Did you mean "${near}"?`;
  return badCell(text, { where, expected: `one of ${LOCKER_KINDS.join(', ')}`, remedy });
}

function wordsOf(text: string, where: string): Result<string> {
  const isClean = /^\P{Cc}*$/u.test(text);
  if (isClean && text.length <= LOCKER_LIMITS.longestTextCount) return ok(text);
  const expected = isClean
    ? `at most ${LOCKER_LIMITS.longestTextCount} characters`
    : 'text on one line, without control characters';
  return badCell(text, { where, expected, remedy: 'Shorten it to one line.' });
}

function numberOf(
  text: string,
  column: LockerColumn,
  { where, delimiter }: { readonly where: string; readonly delimiter: CsvDelimiter },
): Result<number> {
  const least = column.holds === 'length' ? 'more than 0' : '0';
  const expected = `a number${column.unit === '' ? '' : ` of ${column.unit}`} from ${least} to ${column.most}, such as 2.5`;
  const isComma = COMMA_NUMBER.test(text) && text.includes(',');
  const plain = isComma && delimiter === ';' ? text.replace(',', '.') : text;
  if (!POINT_NUMBER.test(plain)) {
    const remedy = isComma
      ? `Write ${text.replace(',', '.')} with a decimal point.`
      : 'Write digits only; the unit has its own column.';
    return badCell(text, { where, expected, remedy });
  }
  const value = Number(plain);
  const isInside = value <= column.most && (column.holds === 'length' ? value > 0 : value >= 0);
  return isInside ? ok(value) : badCell(text, { where, expected, remedy: 'Correct the number.' });
}

const badCell = (text: string, of: Pick<Problem, 'where' | 'expected' | 'remedy'>): Result<never> =>
  failed({ code: 'stock.csv-value', what: `${quotedShort(text)} does not fit.`, ...of });

const quotedShort = (text: string): string => JSON.stringify(text.length <= 80 ? text : `${text.slice(0, 77)}...`);
