import type { NorthUpGrid } from '../grib/index.ts';

/** Regular grid: rows from south to north, columns from west to east, values row by row. */
export type LatLonGrid = Omit<NorthUpGrid, 'values'>;

/** Same text for grids whose points coincide. */
export const gridKey = (grid: LatLonGrid): string =>
  [
    grid.southWest.lat.toFixed(5),
    grid.southWest.lon.toFixed(5),
    grid.latStepDeg.toFixed(7),
    grid.lonStepDeg.toFixed(7),
    grid.rowCount,
    grid.columnCount,
    grid.wrapsInLon,
  ].join(' ');
