import type { Position } from '../geo/index.ts';
import { type FramePart, type GridFrame, indexOfPlace } from '../grib/index.ts';
import { wrap360Deg } from '../units/index.ts';
import { type Box, lonSpanDeg } from './box.ts';
import { indexRangeOfBox } from './grid-outline.ts';
import { isMeridional, type MeridionalGrid, westLonOf } from './grid-kinds.ts';

/** The part of a grid needed for interpolation in a box; null when the box lies outside, or nothing can be cut off. */
export function partFor(grid: GridFrame, box: Box): FramePart | null {
  const spans = isMeridional(grid)
    ? { rows: rowsFor(grid, box), columns: columnsFor(grid, box) }
    : mapSpansFor(grid, box);
  const { rows, columns } = spans;
  if (rows === null || columns === null) return null;
  if (rows.count === grid.rowCount && columns.count === grid.columnCount) return null;
  return {
    rowIndex: rows.fromIndex,
    columnIndex: columns.fromIndex,
    rowCount: rows.count,
    columnCount: columns.count,
  };
}

interface Span {
  readonly fromIndex: number;
  readonly count: number;
}

function rowsFor(grid: MeridionalGrid, box: Box): Span | null {
  if (grid.rowCount === 1) return { fromIndex: 0, count: 1 };
  const rowAt = (lat: number): number => indexOfPlace(grid, { lat, lon: 0 }).rowIndex;
  return spanWithin(rowAt(box.southWest.lat), rowAt(box.northEast.lat), grid.rowCount);
}

function columnsFor(grid: MeridionalGrid, box: Box): Span | null {
  const all = { fromIndex: 0, count: grid.columnCount };
  const columnsAcross = lonSpanDeg(box) / grid.lonStepDeg;
  if (grid.columnCount === 1 || columnsAcross + 4 >= grid.columnCount) return all;
  const westColumn = wrap360Deg(box.southWest.lon - westLonOf(grid)) / grid.lonStepDeg;
  if (!grid.wrapsInLon) {
    const beyondEast = westColumn > grid.columnCount - 1;
    const start = beyondEast ? westColumn - 360 / grid.lonStepDeg : westColumn;
    return spanWithin(start, start + columnsAcross, grid.columnCount);
  }
  const fromIndex = (Math.floor(westColumn) - 1 + grid.columnCount) % grid.columnCount;
  return { fromIndex, count: Math.ceil(columnsAcross) + 4 };
}

interface Spans {
  readonly rows: Span | null;
  readonly columns: Span | null;
}

/**
 * Columns and rows around a box on a map. A pole of turned coordinates inside the box reaches all columns without showing in
 * the outline, and columns that go all the way round have no first one: then everything is kept.
 */
function mapSpansFor(grid: GridFrame, box: Box): Spans {
  const range = grid.wrapsInLon || hasTurnedPole(grid, box) ? null : indexRangeOfBox(grid, box);
  if (range === null) return { rows: spanOfAll(grid.rowCount), columns: spanOfAll(grid.columnCount) };
  const { least, most } = range;
  return {
    rows: spanWithin(least.rowIndex - 1, most.rowIndex + 1, grid.rowCount),
    columns: spanWithin(least.columnIndex - 1, most.columnIndex + 1, grid.columnCount),
  };
}

const spanOfAll = (count: number): Span => ({ fromIndex: 0, count });

function hasTurnedPole(grid: GridFrame, box: Box): boolean {
  if (grid.kind !== 'rotated') return false;
  const { lat, lon } = grid.southPole;
  return contains(box, { lat, lon }) || contains(box, { lat: -lat, lon: lon + 180 });
}

const contains = (box: Box, { lat, lon }: Position): boolean =>
  lat >= box.southWest.lat && lat <= box.northEast.lat && wrap360Deg(lon - box.southWest.lon) <= lonSpanDeg(box);

/** Whole indices around [fromIndex, toIndex] with one to spare, within 0 … count − 1; null when nothing is left. */
function spanWithin(fromIndex: number, toIndex: number, count: number): Span | null {
  const first = Math.max(0, Math.floor(fromIndex) - 1);
  const last = Math.min(count - 1, Math.ceil(toIndex) + 1);
  return last < first ? null : { fromIndex: first, count: last - first + 1 };
}
