import { didYouMean, failed, okUnless, type Problem, type Result } from '../../result/index.ts';
import { LOCKER_COLUMNS, type LockerColumn } from './csv-columns.ts';
import { csvRows, type CsvDelimiter, type CsvRow } from './csv-rows.ts';

/** A table with its header read. */
export interface LockerTable {
  /** By the place of the cell in its row. */
  readonly columns: readonly LockerColumn[];
  readonly rows: readonly CsvRow[];
  readonly delimiter: CsvDelimiter;
}

/** A header with more names is no header of ours; ours. */
const MOST_COLUMNS_COUNT = 100;
const DELIMITERS = [',', ';'] as const;

/**
 * The table of a text. Commas or semicolons, whichever makes the header name more columns we know.
 *
 * @returns the table, or `stock.csv-empty`, `stock.csv-too-large`, `stock.csv-quote`, `stock.csv-column-unknown`, `stock.csv-column-twice`,
 *   `stock.csv-column-missing`
 */
export function lockerTable(text: string, where: string): Result<LockerTable> {
  const read = DELIMITERS.map((delimiter) => ({ delimiter, rows: csvRows(text, delimiter, where) }));
  const [byComma, bySemicolon] = read;
  if (byComma === undefined || bySemicolon === undefined) throw new Error('two ways to read a table');
  const chosen = knownCount(bySemicolon.rows) > knownCount(byComma.rows) ? bySemicolon : byComma;
  if (!chosen.rows.ok) return chosen.rows;
  const [header, ...rows] = chosen.rows.value;
  if (header === undefined) return failed(empty(where));
  const names = namesOf(header);
  if (names.length > MOST_COLUMNS_COUNT) return failed(tooWide(names.length, where));
  const columns = names.flatMap((name) => columnOf(name) ?? []);
  return okUnless(headerProblems(names, `${where}, row ${header.rowNumber}`), () => ({
    columns,
    rows,
    delimiter: chosen.delimiter,
  }));
}

const namesOf = (header: CsvRow): string[] => header.cells.map(({ text }) => text.trim());

const columnOf = (name: string): LockerColumn | undefined =>
  LOCKER_COLUMNS.find((column) => column.name === name.toLowerCase());

const knownCount = (rows: Result<readonly CsvRow[]>): number =>
  rows.ok
    ? namesOf(rows.value[0] ?? { rowNumber: 1, cells: [] })
        .slice(0, MOST_COLUMNS_COUNT)
        .filter((name) => columnOf(name)).length
    : 0;

function headerProblems(names: readonly string[], where: string): Problem[] {
  const all = LOCKER_COLUMNS.map(({ name }) => name);
  const found = names.map((name) => columnOf(name)?.name);
  return [
    ...names.flatMap((name, index) => (found[index] === undefined ? [unknownColumn(name, all, where)] : [])),
    ...found.flatMap((name, index) =>
      name !== undefined && found.indexOf(name) < index ? [columnTwice(name, where)] : [],
    ),
    ...LOCKER_COLUMNS.filter(({ name, isRequired }) => isRequired && !found.includes(name)).map(({ name }) =>
      columnMissing(name, where),
    ),
  ];
}

const empty = (where: string): Problem => ({
  code: 'stock.csv-empty',
  where,
  what: 'The table is empty.',
  expected: `a header, ${LOCKER_COLUMNS.map(({ name }) => name).join(',')}, and a row for each item`,
  remedy: 'Choose another file, or write the header.',
});

const tooWide = (columnCount: number, where: string): Problem => ({
  code: 'stock.csv-too-large',
  where,
  what: `The header has ${columnCount} columns.`,
  expected: `at most ${MOST_COLUMNS_COUNT}`,
  remedy: 'Choose another file, or leave out columns.',
});

function unknownColumn(name: string, known: readonly string[], where: string): Problem {
  const near = didYouMean(name, known);
  return {
    code: 'stock.csv-column-unknown',
    where,
    what: name === '' ? 'A column has no name.' : `There is no column "${name}".`,
    expected: `columns out of ${known.join(', ')}`,
    remedy: near === null ? 'Take the column out.' : `Did you mean "${near}"?`,
  };
}

const columnTwice = (name: string, where: string): Problem => ({
  code: 'stock.csv-column-twice',
  where,
  what: `The column "${name}" stands there twice.`,
  expected: 'each column once',
  remedy: 'Take one of them out.',
});

const columnMissing = (name: string, where: string): Problem => ({
  code: 'stock.csv-column-missing',
  where,
  what: `The column "${name}" is missing.`,
  expected: 'the columns item, amount and unit at least',
  remedy: 'Add it to the header and to every row.',
});
