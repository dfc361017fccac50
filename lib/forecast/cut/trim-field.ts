/** A field without the rows and columns of which no point is needed. */
import type { WrittenGrid } from '../../grib/index.ts';

/** A field in file order. */
export interface MaskedField {
  readonly grid: WrittenGrid;
  readonly values: Float64Array;
  /** 1 where a point is needed. */
  readonly mask: Float64Array;
}

/** Rows and columns from the first to the last that are needed; the field itself where none can go. */
export function trimField({ grid, values, mask }: MaskedField): MaskedField {
  const needed = Array.from(mask.keys()).filter((i) => mask[i] === 1);
  const [top, bottom] = extentOf(needed.map((i) => Math.floor(i / grid.ni)));
  const [left, right] = extentOf(needed.map((i) => i % grid.ni));
  const [ni, nj] = [right - left + 1, bottom - top + 1];
  if (needed.length === 0 || (ni === grid.ni && nj === grid.nj)) return { grid, values, mask };
  const inner = (of: Float64Array): Float64Array =>
    Float64Array.from(
      { length: ni * nj },
      (_, i) => of[(top + Math.floor(i / ni)) * grid.ni + left + (i % ni)] ?? Number.NaN,
    );
  const southward = grid.scanningMode === 64 ? -1 : 1;
  const first = {
    lat: grid.first.lat - southward * top * grid.jIncrementDeg,
    lon: grid.first.lon + left * grid.iIncrementDeg,
  };
  return { grid: { ...grid, ni, nj, first }, values: inner(values), mask: inner(mask) };
}

const extentOf = (indices: readonly number[]): readonly [number, number] =>
  indices.reduce<readonly [number, number]>(
    ([least, most], index) => [Math.min(least, index), Math.max(most, index)],
    [Infinity, -Infinity],
  );
