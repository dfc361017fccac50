/** Kinds of grids of all projections: rows from south to north, columns from west to east in the grid's own coordinates. */
import type { GaussianFrame, GridFrame, LatLonFrame, MercatorFrame } from '../grib/index.ts';
import { assertNever } from '../result/index.ts';

/** Grids whose columns are meridians and whose rows are parallels. */
export type MeridionalGrid = LatLonFrame | GaussianFrame | MercatorFrame;

export const isMeridional = (grid: GridFrame): grid is MeridionalGrid =>
  grid.kind === 'latlon' || grid.kind === 'gaussian' || grid.kind === 'mercator';

/** Longitude of the first column [degrees]; that of a part of a grid may lie outside [-180, 180). */
export const westLonOf = (grid: MeridionalGrid): number =>
  grid.kind === 'latlon' ? grid.southWest.lon : grid.westLonDeg;

/** Same text for grids whose points coincide. */
export function gridKey(grid: GridFrame): string {
  return [...placeKey(grid), grid.rowCount, grid.columnCount, grid.wrapsInLon].join(' ');
}

/** To 5 decimals of a degree, 7 of a step; to a centimetre on a map. */
function placeKey(grid: GridFrame): readonly (string | number)[] {
  switch (grid.kind) {
    case 'latlon':
      return cornerKey(grid);
    case 'rotated': {
      const { southPole, turnDeg } = grid;
      const turn = [southPole.lat, southPole.lon, turnDeg].map((angle) => angle.toFixed(5));
      return ['rotated', ...turn, ...cornerKey(grid)];
    }
    case 'gaussian': {
      const ends = [grid.rowLats.at(0), grid.rowLats.at(-1), grid.westLonDeg].map((angle) => angle?.toFixed(5) ?? '');
      return ['gaussian', ...ends, grid.lonStepDeg.toFixed(7)];
    }
    case 'mercator': {
      const columns = [grid.westLonDeg.toFixed(5), grid.lonStepDeg.toFixed(7)];
      return ['mercator', ...columns, grid.southRad.toFixed(7), grid.rowStepRad.toFixed(9), grid.eccentricityRatio];
    }
    case 'conic': {
      const { cone, southWest, columnStepM, rowStepM } = grid;
      const map = [southWest.xM.toFixed(2), southWest.yM.toFixed(2), columnStepM, rowStepM];
      return ['conic', cone.coneRatio, cone.radiusM, cone.lonDeg, cone.eccentricityRatio, ...map];
    }
    default:
      return assertNever(grid);
  }
}

const cornerKey = (grid: Pick<LatLonFrame, 'southWest' | 'latStepDeg' | 'lonStepDeg'>): string[] => [
  grid.southWest.lat.toFixed(5),
  grid.southWest.lon.toFixed(5),
  grid.latStepDeg.toFixed(7),
  grid.lonStepDeg.toFixed(7),
];
