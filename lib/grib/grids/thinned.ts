/** Rows of different length, made consistent. Shared by both editions. */
import { wrap360Deg } from '../../units/index.ts';
import type { GridCorners, RowMeaning, ThinnedLatLonGrid, ThinnedRows } from '../grid.ts';
import { CORNER_TOLERANCE_DEG, goesAllTheWayRound, impossibleCorner, lonSpanDeg } from './meridian-columns.ts';
import { rowsAgainstScan } from './regular-lat-lon.ts';
import { scansWestward } from './scanning.ts';

/** A list of points per row as a section writes it. */
export interface CodedThinned extends GridCorners {
  readonly scanningMode: number;
  readonly listedCounts: readonly number[];
  /** What the section says the list means; it decides where both meanings give the number of points. */
  readonly statedMeaning: RowMeaning;
  /** Points the section declares; null when it does not. */
  readonly pointCount: number | null;
}

/** The rows and their number of points, or one sentence that says why the octets contradict one another. */
export function thinnedRows(coded: CodedThinned): { rows: ThinnedRows; pointCount: number } | string {
  const { first, last, scanningMode, listedCounts, statedMeaning } = coded;
  const nj = listedCounts.length;
  const longestCount = mostOf(listedCounts);
  if (nj < 1 || longestCount < 1) return `The list gives ${nj} rows of at most ${Math.max(0, longestCount)} points.`;
  const contradiction = impossibleCorner(coded);
  if (contradiction !== null) return contradiction;
  const spanDeg = spanOf({ first, last, scanningMode, listedCounts });
  const isGlobalInLon =
    longestCount > 1 && (spanDeg >= 360 || goesAllTheWayRound(longestCount, spanDeg / (longestCount - 1)));
  const rowsAs = (rowMeaning: RowMeaning): ThinnedRows => ({
    nj,
    first,
    last,
    scanningMode,
    rowMeaning,
    listedCounts,
    isGlobalInLon,
  });
  const meanings: readonly RowMeaning[] =
    statedMeaning === 'circles' ? ['circles', 'extremes'] : ['extremes', 'circles'];
  for (const rowMeaning of meanings) {
    const rows = rowsAs(rowMeaning);
    const pointCount = pointCountOf(rows);
    if (pointCount === (coded.pointCount ?? pointCount)) return { rows, pointCount };
  }
  const sum = pointCountOf(rowsAs('extremes'));
  return `The list of points per row gives ${sum} points, not the ${coded.pointCount} declared.`;
}

/** Rows of a latitude/longitude grid, equally spaced from corner to corner. */
export function thinnedLatLon(rows: ThinnedRows): ThinnedLatLonGrid | string {
  const { nj, first, last } = rows;
  const contradiction = rowsAgainstScan(rows);
  if (contradiction !== null) return contradiction;
  return { kind: 'thinned-latlon', ...rows, jIncrementDeg: nj === 1 ? 0 : Math.abs(last.lat - first.lat) / (nj - 1) };
}

/** Largest of a list that may be longer than the arguments a function takes. */
const mostOf = (counts: readonly number[]): number => counts.reduce((most, count) => Math.max(most, count), -Infinity);

type Extent = Pick<ThinnedRows, 'first' | 'last' | 'scanningMode' | 'listedCounts'>;

const spanOf = ({ first, last, scanningMode, listedCounts }: Extent): number =>
  lonSpanDeg({ ni: mostOf(listedCounts), first, last, scanningMode, storedIncrementDeg: null });

/** Points of one row, equally spaced from west to east. */
export interface RowPoints {
  readonly pointCount: number;
  /** Of the westernmost point; may lie outside [-180, 180). */
  readonly westLonDeg: number;
  readonly stepDeg: number;
  /** The last point neighbours the first. */
  readonly isClosed: boolean;
}

/** Points of every row, in the order of the list. */
export function pointsOfRows(rows: ThinnedRows): RowPoints[] {
  const spanDeg = spanOf(rows);
  const westLonDeg = scansWestward(rows.scanningMode) ? rows.first.lon - spanDeg : rows.first.lon;
  return rows.listedCounts.map((count) =>
    rows.rowMeaning === 'circles'
      ? pointsOfCircle(count, { westLonDeg, spanDeg, isWhole: rows.isGlobalInLon })
      : pointsBetween(count, { westLonDeg, spanDeg, firstLonDeg: rows.first.lon }),
  );
}

function pointsBetween(
  count: number,
  extent: { readonly westLonDeg: number; readonly spanDeg: number; readonly firstLonDeg: number },
): RowPoints {
  if (count <= 1) return { pointCount: count, westLonDeg: extent.firstLonDeg, stepDeg: 0, isClosed: false };
  return { pointCount: count, westLonDeg: extent.westLonDeg, stepDeg: extent.spanDeg / (count - 1), isClosed: false };
}

function pointsOfCircle(
  count: number,
  extent: { readonly westLonDeg: number; readonly spanDeg: number; readonly isWhole: boolean },
): RowPoints {
  if (count === 0) return { pointCount: 0, westLonDeg: extent.westLonDeg, stepDeg: 0, isClosed: false };
  const stepDeg = 360 / count;
  const toleranceSteps = Math.min(CORNER_TOLERANCE_DEG / stepDeg, 0.25);
  const westDeg = wrap360Deg(extent.westLonDeg);
  const firstIndex = Math.ceil(westDeg / stepDeg - toleranceSteps);
  const lastIndex = Math.floor((westDeg + extent.spanDeg) / stepDeg + toleranceSteps);
  const pointCount = extent.isWhole ? count : Math.min(count, Math.max(0, lastIndex - firstIndex + 1));
  return { pointCount, westLonDeg: firstIndex * stepDeg, stepDeg, isClosed: pointCount === count };
}

const pointCountOf = (rows: ThinnedRows): number =>
  pointsOfRows(rows).reduce((sum, { pointCount }) => sum + pointCount, 0);
