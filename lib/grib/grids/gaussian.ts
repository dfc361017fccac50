/** Rows and columns of a Gaussian grid, made consistent. Shared by both editions. */
import type { GaussianGrid, GaussianRows, GridCorners, GridShape, ThinnedGaussianGrid, ThinnedRows } from '../grid.ts';
import { gaussianLat, gaussianSpacingDeg, nearestParallelIndex } from './gaussian-latitudes.ts';
import { impossibleCorner, meridianColumns } from './meridian-columns.ts';
import { rowsAgainstScan } from './regular-lat-lon.ts';
import { scansRowsNorthward } from './scanning.ts';

/** A grid as its section writes it; the increment is null when not given. */
export interface CodedGaussian extends GridShape, GridCorners {
  /** N: parallels between a pole and the equator. */
  readonly parallelCount: number;
  readonly storedIncrementDeg: number | null;
}

/** Most parallels between pole and equator that are read; the finest models in use have 2560. */
const MOST_PARALLELS = 4096;

/** The grid, or one sentence that says why its octets contradict one another. */
export function gaussianGrid(coded: CodedGaussian): GaussianGrid | string {
  const { ni, nj, first, last, scanningMode, parallelCount, storedIncrementDeg } = coded;
  if (ni < 1) return `The grid has ${ni} columns and ${nj} rows.`;
  const rows = gaussianRows(coded);
  if (typeof rows === 'string') return rows;
  const columns = meridianColumns({ ni, first, last, scanningMode, storedIncrementDeg });
  if (typeof columns === 'string') return columns;
  return { kind: 'gaussian', ni, nj, first, last, scanningMode, ...columns, ...rows, parallelCount };
}

/** Thinned rows on Gaussian parallels, or one sentence that says why the octets contradict one another. */
export function thinnedGaussian(rows: ThinnedRows, parallelCount: number): ThinnedGaussianGrid | string {
  const parallels = gaussianRows({ ...rows, parallelCount });
  return typeof parallels === 'string' ? parallels : { kind: 'thinned-gaussian', ...rows, ...parallels };
}

/** Which parallels the rows are: by the nearest to the first corner, unless all are there. */
function gaussianRows(coded: Omit<CodedGaussian, 'ni' | 'storedIncrementDeg'>): GaussianRows | string {
  const { nj, first, scanningMode, parallelCount } = coded;
  if (parallelCount < 1 || parallelCount > MOST_PARALLELS)
    return `There are ${parallelCount} parallels between a pole and the equator; 1 to ${MOST_PARALLELS} are read.`;
  if (nj < 1 || nj > 2 * parallelCount) return `The grid has ${nj} rows of ${2 * parallelCount} parallels.`;
  const contradiction = impossibleCorner(coded) ?? rowsAgainstScan(coded);
  if (contradiction !== null) return contradiction;
  const isNorthward = scansRowsNorthward(scanningMode);
  if (nj === 2 * parallelCount) return { parallelCount, firstParallelIndex: isNorthward ? nj - 1 : 0 };
  const firstParallelIndex = nearestParallelIndex(parallelCount, first.lat);
  return rowsOffParallels(coded, firstParallelIndex) ?? { parallelCount, firstParallelIndex };
}

/** Corners are coded to a millidegree at worst; a quarter of the distance between parallels leaves no doubt which is meant. */
function rowsOffParallels(
  { nj, first, last, scanningMode, parallelCount }: Omit<CodedGaussian, 'ni' | 'storedIncrementDeg'>,
  firstParallelIndex: number,
): string | null {
  const lastParallelIndex = firstParallelIndex + (scansRowsNorthward(scanningMode) ? 1 - nj : nj - 1);
  const toleranceDeg = gaussianSpacingDeg(parallelCount) / 4;
  const isOff = (parallelIndex: number, lat: number): boolean =>
    parallelIndex < 0 ||
    parallelIndex >= 2 * parallelCount ||
    Math.abs(gaussianLat(parallelCount, parallelIndex) - lat) > toleranceDeg;
  return isOff(firstParallelIndex, first.lat) || isOff(lastParallelIndex, last.lat)
    ? `${nj} rows from latitude ${first.lat} to ${last.lat} are not parallels of N${parallelCount}.`
    : null;
}
