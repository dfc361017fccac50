import { failed, okUnless, type Problem, type Result } from '../../result/index.ts';
import { lockerProblems } from './check-locker.ts';
import { cellText, cellValue } from './csv-cells.ts';
import { LOCKER_COLUMNS } from './csv-columns.ts';
import { lockerTable, type LockerTable } from './csv-header.ts';
import type { CsvRow } from './csv-rows.ts';
import { LOCKER_ITEM_DEFAULTS, LOCKER_KINDS, LOCKER_LIMITS, type Locker, type LockerItem } from './locker.ts';

/** Longest table that is read [characters]. */
const MOST_CHARACTERS = 1_000_000;

/**
 * Reads the table of a locker: a header with the columns `item`, `amount`, `unit` and any of `kind`, `keep`, `place`,
 * `length_mm`, `diameter_mm`, `ready_utc`, in any order, then a row for each item. Cells are parted by commas or by
 * semicolons, by what the header says; rows with nothing in them are passed over.
 *
 * @param where name of the file, before row and column in every problem
 * @returns the locker, or every bad cell: `stock.csv-*`, `stock.bar-*`, `stock.not-a-bar`, `stock.item-twice`,
 *   `stock.item-units`, `time.not-an-instant`
 */
export function readLockerCsv(text: string, where: string): Result<Locker> {
  if (text.length > MOST_CHARACTERS) return failed(tooLarge(`${text.length} characters`, MOST_CHARACTERS, where));
  const table = lockerTable(text, where);
  if (!table.ok) return table;
  const { mostLineCount } = LOCKER_LIMITS;
  const { rows } = table.value;
  if (rows.length > mostLineCount) return failed(tooLarge(`${rows.length} rows`, mostLineCount, where));
  const lines = rows.map((row) => readLine(row, table.value, where));
  const problems = lines.flatMap((line) => (line.ok ? [] : line.problems));
  const read = lines.flatMap((line) => (line.ok ? [line.value] : []));
  const among = lockerProblems(
    read.map(({ item }) => item),
    {
      place: (index, field) => `${where}, row ${read[index]?.rowNumber ?? 0}, ${columnNameOf(field)}`,
      codeWord: 'stock',
      barWords: 'bar in the column "kind"',
    },
  );
  return okUnless([...problems, ...among], () => ({ items: read.map(({ item }) => item) }));
}

const columnNameOf = (field: keyof LockerItem): string =>
  LOCKER_COLUMNS.find((column) => column.field === field)?.name ?? field;

interface ReadLine {
  readonly rowNumber: number;
  readonly item: LockerItem;
}

function readLine(row: CsvRow, { columns, delimiter }: LockerTable, where: string): Result<ReadLine> {
  const rowWhere = `${where}, row ${row.rowNumber}`;
  if (row.cells.length !== columns.length) return failed(cellCount(row, columns.length, rowWhere));
  const problems: Problem[] = [];
  const values = new Map<keyof LockerItem, string | number>();
  for (const [index, column] of columns.entries()) {
    const cell = row.cells[index];
    const text = cell === undefined ? null : cellText(cell, column);
    const cellWhere = `${rowWhere}, ${column.name}`;
    if (text === null && column.isRequired) problems.push(emptyCell(column.name, cellWhere));
    if (text === null) continue;
    const value = cellValue(text, column, { where: cellWhere, delimiter });
    if (value.ok) values.set(column.field, value.value);
    else problems.push(...value.problems);
  }
  return okUnless(problems, () => ({ rowNumber: row.rowNumber, item: itemOf(values) }));
}

function itemOf(values: ReadonlyMap<keyof LockerItem, string | number>): LockerItem {
  const text = (field: keyof LockerItem): string | null => {
    const value = values.get(field);
    return typeof value === 'string' ? value : null;
  };
  const number = (field: keyof LockerItem): number | null => {
    const value = values.get(field);
    return typeof value === 'number' ? value : null;
  };
  return {
    item: text('item') ?? '',
    kind: LOCKER_KINDS.find((kind) => kind === text('kind')) ?? LOCKER_ITEM_DEFAULTS.kind,
    unit: text('unit') ?? '',
    onBoardAmount: number('onBoardAmount') ?? 0,
    keepAmount: number('keepAmount') ?? LOCKER_ITEM_DEFAULTS.keepAmount,
    place: text('place'),
    lengthMm: number('lengthMm'),
    diameterMm: number('diameterMm'),
    readyEpochMs: number('readyEpochMs'),
  };
}

const emptyCell = (name: string, where: string): Problem => ({
  code: 'stock.csv-cell-empty',
  where,
  what: 'The cell is empty.',
  expected: name === 'amount' ? 'the amount on board' : name === 'unit' ? 'the unit it is counted in' : 'its name',
  remedy: name === 'amount' ? 'Count it, or take the row out.' : 'Fill it in, or take the row out.',
});

const cellCount = (row: CsvRow, wantedCount: number, where: string): Problem => ({
  code: 'stock.csv-cells',
  where,
  what: `The row has ${row.cells.length} ${row.cells.length === 1 ? 'cell' : 'cells'}.`,
  expected: `${wantedCount}, as many as the header`,
  remedy: 'Look for a separator too few or too many; a text that holds one stands in quotes.',
});

const tooLarge = (has: string, mostCount: number, where: string): Problem => ({
  code: 'stock.csv-too-large',
  where,
  what: `The table has ${has}.`,
  expected: `at most ${mostCount}`,
  remedy: 'Leave out what no job needs.',
});
