/** A grid as the file lays it out → its north-up frame. */
import { assertNever } from '../../result/index.ts';
import { wrap180Deg } from '../../units/index.ts';
import type { EvenGrid, GridCorners, GridShape, MeridianColumns, PlacedGrid, ThinnedGrid } from '../grid.ts';
import { mapCorners } from './conic.ts';
import type { GridFrame, LatLonFrame } from './frame.ts';
import { gaussianLats } from './gaussian-latitudes.ts';
import { isometricLatRad } from './mercator.ts';
import { scansRowsNorthward, scansWestward } from './scanning.ts';
import { pointsOfRows, type RowPoints } from './thinned.ts';

/** The north-up frame of a grid. Thinned rows become as many columns as the longest has points. */
export function frameOfGrid(grid: PlacedGrid): GridFrame {
  switch (grid.kind) {
    case 'regular-latlon':
      return latLonFrame(grid);
    case 'rotated-latlon':
      return { ...latLonFrame(grid), kind: 'rotated', southPole: grid.southPole, turnDeg: grid.turnDeg };
    case 'gaussian':
      return {
        kind: 'gaussian',
        westLonDeg: wrap180Deg(westLon(grid)),
        lonStepDeg: grid.iIncrementDeg,
        rowLats: gaussianRowLats(grid),
        ...shapeOf(grid),
      };
    case 'mercator':
      return {
        kind: 'mercator',
        westLonDeg: wrap180Deg(westLon(grid)),
        lonStepDeg: grid.iIncrementDeg,
        southRad: southRad(grid),
        rowStepRad: grid.jIncrementRad,
        eccentricityRatio: grid.eccentricityRatio,
        ...shapeOf(grid),
      };
    case 'polar-stereographic':
    case 'lambert':
      return {
        kind: 'conic',
        cone: grid.cone,
        southWest: mapCorners(grid).southWest,
        columnStepM: grid.lengths.xM,
        rowStepM: grid.lengths.yM,
        columnCount: grid.ni,
        rowCount: grid.nj,
        wrapsInLon: false,
      };
    case 'thinned-latlon':
    case 'thinned-gaussian':
      return thinnedFrame(grid);
    default:
      return assertNever(grid);
  }
}

type Meridional = GridShape & GridCorners & MeridianColumns;

const shapeOf = (grid: GridShape & MeridianColumns): Pick<LatLonFrame, 'columnCount' | 'rowCount' | 'wrapsInLon'> => ({
  columnCount: columnCountOf(grid),
  rowCount: grid.nj,
  wrapsInLon: grid.isGlobalInLon,
});

/** Columns of a grid without those that repeat the first ones. */
const columnCountOf = (grid: GridShape & MeridianColumns): number =>
  grid.isGlobalInLon ? Math.round(360 / grid.iIncrementDeg) : grid.ni;

function latLonFrame(grid: Meridional & { readonly jIncrementDeg: number }): LatLonFrame {
  return {
    kind: 'latlon',
    southWest: { lat: Math.min(grid.first.lat, grid.last.lat), lon: wrap180Deg(westLon(grid)) },
    lonStepDeg: grid.iIncrementDeg,
    latStepDeg: grid.jIncrementDeg,
    ...shapeOf(grid),
  };
}

const westLon = (grid: Meridional): number =>
  scansWestward(grid.scanningMode) ? grid.first.lon - grid.iIncrementDeg * (grid.ni - 1) : grid.first.lon;

function southRad(grid: Extract<EvenGrid, { kind: 'mercator' }>): number {
  const firstRad = isometricLatRad(grid.first.lat, grid.eccentricityRatio);
  return scansRowsNorthward(grid.scanningMode) ? firstRad : firstRad - (grid.nj - 1) * grid.jIncrementRad;
}

/** Latitudes of the rows of a Gaussian grid from south to north. */
export function gaussianRowLats(
  grid: Pick<Extract<PlacedGrid, { kind: 'gaussian' }>, 'parallelCount' | 'firstParallelIndex' | 'nj' | 'scanningMode'>,
): Float64Array {
  const { parallelCount, firstParallelIndex, nj, scanningMode } = grid;
  const northIndex = scansRowsNorthward(scanningMode) ? firstParallelIndex - (nj - 1) : firstParallelIndex;
  return gaussianLats(parallelCount, northIndex, nj);
}

function thinnedFrame(grid: ThinnedGrid): GridFrame {
  const { pointCount, westLonDeg, stepDeg } = longestRow(pointsOfRows(grid));
  const columns = {
    lonStepDeg: pointCount > 1 ? stepDeg : 0,
    columnCount: pointCount,
    rowCount: grid.nj,
    wrapsInLon: grid.isGlobalInLon,
  };
  const west = wrap180Deg(westLonDeg);
  if (grid.kind === 'thinned-gaussian')
    return { kind: 'gaussian', westLonDeg: west, rowLats: gaussianRowLats(grid), ...columns };
  const southLat = Math.min(grid.first.lat, grid.last.lat);
  return { kind: 'latlon', southWest: { lat: southLat, lon: west }, latStepDeg: grid.jIncrementDeg, ...columns };
}

/** The first of the rows with the most points. */
const longestRow = (rows: readonly RowPoints[]): RowPoints =>
  rows.reduce((longest, row) => (row.pointCount > longest.pointCount ? row : longest));
