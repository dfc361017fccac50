/** Tables of comma-separated values that lie: quotes left open, formulas, other separators, too many columns. */
import { type Damaging, ofText, type WeighedDamage } from './mutant.ts';

const CELLS = [
  '',
  ' ',
  '"',
  '""',
  '"a""b"',
  '"open',
  'a"b',
  "'",
  '=1+1',
  '@SUM(A1)',
  '-1',
  '+1',
  '1,5',
  '1.5',
  '1e3',
  '1e999',
  'NaN',
  'Infinity',
  '0x10',
  '-0',
  '1000000000',
  '0.0000001',
  'true',
  'null',
  '__proto__',
  '\u202Ea',
  '\u001B[31m',
  'a\nb',
  '"a\r\nb"',
  '\t',
  '\u00A0',
  '1 000',
  '١',
  '9'.repeat(400),
  '2026-02-30T00:00Z',
  '2026-05-27',
  'bar',
  'Bar',
  'x'.repeat(5000),
  '<b>',
  '\0',
  '1;2',
  '"1;2"',
  '\uFF1D1+1',
  "'=1",
  '12 mm',
  '½',
];
const GIANTS: readonly (() => string)[] = [
  () => ','.repeat(900_000),
  () => '"'.repeat(900_000),
  () => 'x'.repeat(1_200_000),
  () => '"x\n'.repeat(200_000),
  () => 'twine,1,m\n'.repeat(90_000),
  () => 'a,'.repeat(400_000),
  () => '\r'.repeat(900_000),
];

const rowsOf = (text: string): string[][] => text.split('\n').map((row) => row.split(','));
const textOf = (rows: readonly (readonly string[])[], separator = ','): string =>
  rows.map((row) => row.join(separator)).join('\n');

function withCell(text: string, { below }: Damaging, cell: string): string {
  const rows = rowsOf(text);
  const row = rows[below(rows.length)] ?? [];
  row[below(Math.max(1, row.length))] = cell;
  return textOf(rows);
}

const change = (name: string, weight: number, of: (text: string, chance: Damaging) => string): WeighedDamage => ({
  name,
  weight,
  damage: ofText(of),
});

export const tableDamages = (giantOneIn: number): readonly WeighedDamage[] => [
  change('another cell', 10, (text, chance) => withCell(text, chance, chance.pick(CELLS))),
  change('a giant cell', 1, (text, chance) =>
    withCell(text, chance, chance.oneIn(giantOneIn) ? chance.pick(GIANTS)() : chance.pick(CELLS)),
  ),
  change('a cell taken out', 2, (text, { below }) => {
    const rows = rowsOf(text);
    rows[below(rows.length)]?.splice(below(4), 1);
    return textOf(rows);
  }),
  change('a row many times', 2, (text, { below, pick }) => {
    const rows = rowsOf(text);
    const row = rows[below(rows.length)] ?? [];
    return textOf([...rows, ...Array.from({ length: pick([1, 2, 400]) }, () => row)]);
  }),
  change('rows in another order', 1, (text, { below }) => {
    const rows = rowsOf(text);
    return textOf([...rows.slice(below(rows.length)), ...rows]);
  }),
  change('another separator', 2, (text, { pick }) => textOf(rowsOf(text), pick([';', '\t', '|', ', ', ',,']))),
  change('another name of a column', 2, (text, { pick }) => {
    const [head = [], ...rows] = rowsOf(text);
    return textOf([
      head.map((name, i) => (i === 1 ? pick(['Amount', 'amuont', '', 'item', 'kind', '__proto__']) : name)),
      ...rows,
    ]);
  }),
];
