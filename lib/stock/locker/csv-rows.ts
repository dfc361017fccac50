/** Tables of comma-separated values (RFC 4180): a text into rows of cells. */
import { failed, ok, type Problem, type Result } from '../../result/index.ts';

export type CsvDelimiter = ',' | ';';

/** A cell as it stands; in quotes, spaces round it belong to it. */
export interface CsvCell {
  readonly text: string;
  readonly isQuoted: boolean;
}

/** A row with its number in the file, the header being row 1. */
export interface CsvRow {
  readonly rowNumber: number;
  readonly cells: readonly CsvCell[];
}

const BYTE_ORDER_MARK = '\uFEFF';

const CELL = {
  ',': /"([^"]*(?:""[^"]*)*)"|([^",\r\n]*)/y,
  ';': /"([^"]*(?:""[^"]*)*)"|([^";\r\n]*)/y,
} as const;
const LINE_END = /\r\n|\n|\r/y;

/**
 * The rows of a table that hold anything: quotes round cells, quotes inside doubled; lines end in CRLF, LF or CR; a
 * byte order mark before the first is passed over.
 *
 * @returns the rows, or `stock.csv-quote` at the first quote that breaks the table: what follows it cannot be told apart
 *
 * RFC 4180, section 2, rules 1, 2, 5, 6 and 7.
 */
export function csvRows(text: string, delimiter: CsvDelimiter, where: string): Result<readonly CsvRow[]> {
  const rows: CsvRow[] = [];
  let rowNumber = 1;
  let cells: CsvCell[] = [];
  let at = text.startsWith(BYTE_ORDER_MARK) ? 1 : 0;
  while (at <= text.length) {
    const { cell, nextIndex } = cellAt(text, at, delimiter);
    cells.push(cell);
    const lineEnd = lineEndAt(text, nextIndex);
    const isEnd = nextIndex >= text.length;
    if (text[nextIndex] === delimiter) at = nextIndex + 1;
    else if (isEnd || lineEnd > 0) {
      if (cells.some((one) => one.text.trim() !== '')) rows.push({ rowNumber, cells });
      [cells, rowNumber] = [[], rowNumber + 1];
      at = nextIndex + (isEnd ? 1 : lineEnd);
    } else return failed(brokenQuote(cell, `${where}, row ${rowNumber}, cell ${cells.length}`));
  }
  return ok(rows);
}

function cellAt(text: string, fromIndex: number, delimiter: CsvDelimiter): { cell: CsvCell; nextIndex: number } {
  const pattern = CELL[delimiter];
  pattern.lastIndex = fromIndex;
  const [whole = '', quoted, plain = ''] = pattern.exec(text) ?? [];
  const isQuoted = quoted !== undefined;
  const cell = { text: isQuoted ? quoted.replaceAll('""', '"') : plain, isQuoted };
  return { cell, nextIndex: fromIndex + whole.length };
}

/** Characters of the line end at a place; 0: none is there. */
function lineEndAt(text: string, fromIndex: number): number {
  LINE_END.lastIndex = fromIndex;
  return LINE_END.exec(text)?.[0].length ?? 0;
}

const brokenQuote = ({ text, isQuoted }: CsvCell, where: string): Problem => ({
  code: 'stock.csv-quote',
  where,
  what: isQuoted
    ? 'Something follows the closing quote of a cell.'
    : text.trim() === ''
      ? 'A cell begins with a quote and has no closing one.'
      : `A quote stands inside "${text}", which is not in quotes.`,
  expected: 'a cell wholly in quotes, quotes inside it written twice',
  remedy: 'Close the quotes, or write the ones inside twice.',
});
