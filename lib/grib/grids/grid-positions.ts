/** Positions of a field's points in the order of the file. */
import { assertNever } from '../../result/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import type { EvenGrid, PlacedGrid, RegularLatLonGrid, ThinnedGrid } from '../grid.ts';
import { type FrameIndex, positionAt } from './frame.ts';
import { frameOfGrid, gaussianRowLats } from './frame-of-grid.ts';
import { northUpLines, rowRunsBack, scanLines, scansRowsNorthward, scansWestward } from './scanning.ts';
import { pointsOfRows } from './thinned.ts';

/** Latitudes and longitudes of all points in file order, degrees; longitudes in [-180, 180). */
export interface GridPositions {
  readonly lats: Float64Array;
  readonly lons: Float64Array;
}

/** Positions of a grid's points in the order of the file, for every kind of grid and scanning mode. */
export function gridPositions(grid: PlacedGrid): GridPositions {
  switch (grid.kind) {
    case 'regular-latlon':
      return regularPositions(grid);
    case 'thinned-latlon':
    case 'thinned-gaussian':
      return thinnedPositions(grid);
    case 'gaussian':
    case 'mercator':
      return meridionalPositions(grid);
    case 'rotated-latlon':
    case 'polar-stereographic':
    case 'lambert':
      return projectedPositions(grid);
    default:
      return assertNever(grid);
  }
}

function regularPositions(grid: RegularLatLonGrid): GridPositions {
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
function latOfRow(grid: Pick<RegularLatLonGrid, 'nj' | 'first' | 'last'>, jIndex: number): number {
  if (grid.nj === 1) return grid.first.lat;
  if (jIndex === grid.nj - 1) return grid.last.lat;
  return grid.first.lat + ((grid.last.lat - grid.first.lat) * jIndex) / (grid.nj - 1);
}

function lonOfColumn(grid: RegularLatLonGrid, iIndex: number): number {
  const alongDeg = grid.iIncrementDeg * iIndex;
  return scansWestward(grid.scanningMode) ? grid.first.lon - alongDeg : grid.first.lon + alongDeg;
}

/** Columns are meridians and rows parallels: each is worked out once. */
function meridionalPositions(grid: EvenGrid): GridPositions {
  const frame = frameOfGrid(grid);
  const at = (index: FrameIndex) => positionAt(frame, index);
  const rowLats = Float64Array.from({ length: grid.nj }, (_, rowIndex) => at({ columnIndex: 0, rowIndex }).lat);
  const columnLons = Float64Array.from({ length: grid.ni }, (_, columnIndex) => at({ columnIndex, rowIndex: 0 }).lon);
  return filled(grid, ({ columnIndex, rowIndex }) => ({
    lat: rowLats[rowIndex] ?? Number.NaN,
    lon: columnLons[columnIndex] ?? Number.NaN,
  }));
}

function projectedPositions(grid: EvenGrid): GridPositions {
  const frame = frameOfGrid(grid);
  return filled(grid, (index) => positionAt(frame, index));
}

function filled(grid: EvenGrid, placeOf: (index: FrameIndex) => { lat: number; lon: number }): GridPositions {
  const lats = new Float64Array(grid.ni * grid.nj);
  const lons = new Float64Array(grid.ni * grid.nj);
  for (const line of northUpLines(grid)) {
    for (let k = 0; k < line.pointCount; k++) {
      const { lat, lon } = placeOf({
        columnIndex: line.columnIndex + k * line.columnStepCount,
        rowIndex: line.rowIndex + k * line.rowStepCount,
      });
      lats[line.fileIndex + k] = lat;
      lons[line.fileIndex + k] = lon;
    }
  }
  return { lats, lons };
}

function thinnedPositions(grid: ThinnedGrid): GridPositions {
  const rows = pointsOfRows(grid);
  const latOf = rowLatOf(grid);
  const pointCount = rows.reduce((sum, row) => sum + row.pointCount, 0);
  const [lats, lons] = [new Float64Array(pointCount), new Float64Array(pointCount)];
  let fileIndex = 0;
  for (const [jIndex, row] of rows.entries()) {
    const runsBack = rowRunsBack(grid.scanningMode, jIndex);
    for (let k = 0; k < row.pointCount; k++) {
      const eastward = runsBack ? row.pointCount - 1 - k : k;
      lats[fileIndex] = latOf(jIndex);
      lons[fileIndex] = wrap180Deg(row.westLonDeg + eastward * row.stepDeg);
      fileIndex += 1;
    }
  }
  return { lats, lons };
}

/** Latitude of a row, counted in the order of the file. */
function rowLatOf(grid: ThinnedGrid): (jIndex: number) => number {
  if (grid.kind === 'thinned-latlon') return (jIndex) => latOfRow(grid, jIndex);
  const lats = gaussianRowLats(grid);
  const isNorthward = scansRowsNorthward(grid.scanningMode);
  return (jIndex) => lats[isNorthward ? jIndex : grid.nj - 1 - jIndex] ?? Number.NaN;
}
