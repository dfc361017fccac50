import { wrap360Deg } from '../units/index.ts';
import { type Box, lonSpanDeg } from './box.ts';
import type { LatLonGrid } from './lat-lon-grid.ts';

/** Which part of a grid to keep: rows from `rowIndex`, columns from `columnIndex` eastward, round the globe if need be. */
export interface Crop {
  readonly grid: LatLonGrid;
  readonly rowIndex: number;
  readonly columnIndex: number;
}

/** The part of a grid needed for interpolation in a box; null when the box lies outside, or nothing can be cut off. */
export function cropFor(grid: LatLonGrid, box: Box): Crop | null {
  const rows = rowsFor(grid, box);
  const columns = columnsFor(grid, box);
  if (rows === null || columns === null) return null;
  if (rows.count === grid.rowCount && columns.count === grid.columnCount) return null;
  const keepsAllColumns = columns.count === grid.columnCount;
  return {
    grid: {
      ...grid,
      southWest: {
        lat: grid.southWest.lat + rows.fromIndex * grid.latStepDeg,
        lon: grid.southWest.lon + columns.fromIndex * grid.lonStepDeg,
      },
      rowCount: rows.count,
      columnCount: columns.count,
      wrapsInLon: grid.wrapsInLon && keepsAllColumns,
    },
    rowIndex: rows.fromIndex,
    columnIndex: columns.fromIndex,
  };
}

interface Span {
  readonly fromIndex: number;
  readonly count: number;
}

function rowsFor(grid: LatLonGrid, box: Box): Span | null {
  if (grid.rowCount === 1) return { fromIndex: 0, count: 1 };
  const rowAt = (lat: number): number => (lat - grid.southWest.lat) / grid.latStepDeg;
  return spanWithin(rowAt(box.southWest.lat), rowAt(box.northEast.lat), grid.rowCount);
}

function columnsFor(grid: LatLonGrid, box: Box): Span | null {
  const all = { fromIndex: 0, count: grid.columnCount };
  const columnsAcross = lonSpanDeg(box) / grid.lonStepDeg;
  if (grid.columnCount === 1 || columnsAcross + 4 >= grid.columnCount) return all;
  const westColumn = wrap360Deg(box.southWest.lon - grid.southWest.lon) / grid.lonStepDeg;
  if (!grid.wrapsInLon) {
    const beyondEast = westColumn > grid.columnCount - 1;
    const start = beyondEast ? westColumn - 360 / grid.lonStepDeg : westColumn;
    return spanWithin(start, start + columnsAcross, grid.columnCount);
  }
  const fromIndex = (Math.floor(westColumn) - 1 + grid.columnCount) % grid.columnCount;
  return { fromIndex, count: Math.ceil(columnsAcross) + 4 };
}

/** Whole indices around [fromIndex, toIndex] with one to spare, within 0 … count − 1; null when nothing is left. */
function spanWithin(fromIndex: number, toIndex: number, count: number): Span | null {
  const first = Math.max(0, Math.floor(fromIndex) - 1);
  const last = Math.min(count - 1, Math.ceil(toIndex) + 1);
  return last < first ? null : { fromIndex: first, count: last - first + 1 };
}

/** Values of the part kept. */
export function cropValues(values: Float32Array, whole: LatLonGrid, crop: Crop): Float32Array {
  const { rowCount, columnCount } = crop.grid;
  const kept = new Float32Array(rowCount * columnCount);
  for (let row = 0; row < rowCount; row++) {
    const rowStart = (crop.rowIndex + row) * whole.columnCount;
    for (let column = 0; column < columnCount; column++) {
      const from = rowStart + ((crop.columnIndex + column) % whole.columnCount);
      kept[row * columnCount + column] = values[from] ?? Number.NaN;
    }
  }
  return kept;
}
