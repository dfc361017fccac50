/** Golden messages with the values another reader found in them: a folder of files and its `values.json`. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';

/** A message and its values in file order; null: masked. */
export interface ExpectedValues {
  readonly file: string;
  readonly bytes: Uint8Array;
  readonly values: readonly (number | null)[];
}

/** All messages of `tests/golden/<folder>`; a file without values, or values without a file, is an error. */
export function readExpected(folder: string): readonly ExpectedValues[] {
  const path = join('tests/golden', folder);
  const { values } = JSON.parse(readFileSync(join(path, 'values.json'), 'utf8')) as {
    values: Readonly<Record<string, readonly (number | null)[]>>;
  };
  const files = readdirSync(path).filter((file) => /\.grib[12]$/.test(file));
  if (files.toSorted().join() !== Object.keys(values).toSorted().join())
    throw new Error(`${path}: files and values differ`);
  return files.map((file) => ({
    file,
    bytes: new Uint8Array(readFileSync(join(path, file))),
    values: values[file] ?? [],
  }));
}

/** Greatest relative difference; Infinity where one has a value and the other has none. */
export function worstDifference(found: Float64Array, expected: readonly (number | null)[]): number {
  if (found.length !== expected.length) return Infinity;
  return expected.reduce<number>((worst, value, i) => {
    const own = found[i] ?? NaN;
    if (value === null) return Number.isNaN(own) ? worst : Infinity;
    if (Number.isNaN(own)) return Infinity;
    return own === value ? worst : Math.max(worst, Math.abs(own - value) / Math.abs(value));
  }, 0);
}
