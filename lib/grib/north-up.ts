/** Positions of a field's points, and its values on one canonical grid. */
import { wrap180Deg } from '../units/index.ts';
import type { RegularLatLonGrid } from './grid.ts';
import { type ScanLine, scanLines, scansRowsNorthward, scansWestward } from './scanning.ts';

/** Latitudes and longitudes of all points in file order, degrees; longitudes in [-180, 180). */
export interface GridPositions {
  readonly lats: Float64Array;
  readonly lons: Float64Array;
}

/** Positions of a grid's points in the order of the file, for every scanning mode. */
export function gridPositions(grid: RegularLatLonGrid): GridPositions {
  const pointCount = grid.ni * grid.nj;
  const lats = new Float64Array(pointCount);
  const lons = new Float64Array(pointCount);
  for (const line of scanLines(grid)) {
    for (let k = 0; k < line.pointCount; k++) {
      lats[line.fileIndex + k] = latOfRow(grid, line.jIndex + k * line.jStepCount);
      lons[line.fileIndex + k] = wrap180Deg(lonOfColumn(grid, line.iIndex + k * line.iStepCount));
    }
  }
  return { lats, lons };
}

/** From the corners, so that the last row lies exactly where it is coded. */
function latOfRow(grid: RegularLatLonGrid, jIndex: number): number {
  if (grid.nj === 1) return grid.first.lat;
  return grid.first.lat + ((grid.last.lat - grid.first.lat) * jIndex) / (grid.nj - 1);
}

function lonOfColumn(grid: RegularLatLonGrid, iIndex: number): number {
  const alongDeg = grid.iIncrementDeg * iIndex;
  return scansWestward(grid.scanningMode) ? grid.first.lon - alongDeg : grid.first.lon + alongDeg;
}

/**
 * Values on a grid whose rows run from south to north and whose columns run from west to east; row-major:
 * value of column i and row j at `values[j * columnCount + i]`, NaN where missing.
 */
export interface NorthUpGrid {
  /** First column and row; longitude in [-180, 180). Later columns may pass 180: longitude = southWest.lon + i · lonStepDeg. */
  readonly southWest: { readonly lat: number; readonly lon: number };
  /** 0 with one column. */
  readonly lonStepDeg: number;
  /** 0 with one row. */
  readonly latStepDeg: number;
  readonly columnCount: number;
  readonly rowCount: number;
  /** The column after the last is the first again. A repeated last column has been left out. */
  readonly wrapsInLon: boolean;
  readonly values: Float32Array;
}

/** Turns values in file order the north-up way. Single precision keeps 7 digits, far below any forecast's error. */
export function toNorthUpGrid(grid: RegularLatLonGrid, fileValues: Float64Array): NorthUpGrid {
  const columnCount = grid.isGlobalInLon ? Math.round(360 / grid.iIncrementDeg) : grid.ni;
  const values = new Float32Array(columnCount * grid.nj);
  for (const line of scanLines(grid)) placeLine(line, { grid, columnCount, values, fileValues });
  return {
    southWest: { lat: Math.min(grid.first.lat, grid.last.lat), lon: wrap180Deg(westLon(grid)) },
    lonStepDeg: grid.iIncrementDeg,
    latStepDeg: grid.jIncrementDeg,
    columnCount,
    rowCount: grid.nj,
    wrapsInLon: grid.isGlobalInLon,
    values,
  };
}

interface Placing {
  readonly grid: RegularLatLonGrid;
  readonly columnCount: number;
  readonly values: Float32Array;
  readonly fileValues: Float64Array;
}

/** Columns from `columnCount` on repeat the first ones. */
function placeLine(line: ScanLine, { grid, columnCount, values, fileValues }: Placing): void {
  const isWestward = scansWestward(grid.scanningMode);
  const isNorthward = scansRowsNorthward(grid.scanningMode);
  let columnIndex = isWestward ? grid.ni - 1 - line.iIndex : line.iIndex;
  let rowIndex = isNorthward ? line.jIndex : grid.nj - 1 - line.jIndex;
  const columnStepCount = isWestward ? -line.iStepCount : line.iStepCount;
  const rowStepCount = isNorthward ? line.jStepCount : -line.jStepCount;
  for (let k = 0; k < line.pointCount; k++) {
    if (columnIndex < columnCount) values[rowIndex * columnCount + columnIndex] = fileValues[line.fileIndex + k] ?? NaN;
    columnIndex += columnStepCount;
    rowIndex += rowStepCount;
  }
}

const westLon = (grid: RegularLatLonGrid): number =>
  scansWestward(grid.scanningMode) ? lonOfColumn(grid, grid.ni - 1) : grid.first.lon;
