/** Which reader reads which file, and how fast, in words. */
import type { ReaderResult } from '../bench-grib/npm-readers.ts';

/** A file, how fast ours is on it, and what the other readers made of it. */
export interface ReadFile {
  readonly title: string;
  readonly oursPerS: number;
  readonly readers: readonly ReaderResult[];
}

const TITLE_WIDTH = 50;
const CELL_WIDTH = 24;

/** A line for each file; readers side by side, as many times slower than ours as they are. */
export function readerLines(files: readonly ReadFile[]): readonly string[] {
  const names = [...new Set(files.flatMap(({ readers }) => readers.map(({ name }) => name)))];
  if (names.length === 0) return [];
  const heading = 'grib, other readers'.padEnd(TITLE_WIDTH) + names.map((name) => name.padStart(CELL_WIDTH)).join('');
  const rows = files
    .filter(({ readers }) => readers.length > 0)
    .map(
      ({ title, oursPerS, readers }) =>
        title.padEnd(TITLE_WIDTH) +
        names.map((name) => verdictIn(readers, name, oursPerS).padStart(CELL_WIDTH)).join(''),
    );
  const good = names.map((name) => {
    const count = files.filter(({ readers }) =>
      readers.some((one) => one.name === name && one.verdict === 'ok'),
    ).length;
    return `${name} ${count}`;
  });
  return [
    heading,
    ...rows,
    `grib: of ${rows.length} files so many are read with the values of ours, which are those of ecCodes: ${good.join(', ')}`,
  ];
}

function verdictIn(readers: readonly ReaderResult[], name: string, oursPerS: number): string {
  const found = readers.find((one) => one.name === name);
  if (found === undefined) return '–';
  // How fast wrong values come tells nothing.
  return found.perS === null || found.verdict !== 'ok'
    ? found.verdict
    : `${found.verdict}, ${(oursPerS / found.perS).toFixed(0)} times slower`;
}
