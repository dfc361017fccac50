/** Grids of which no part can be written. */
import type { GridFrame } from '../../grib/index.ts';
import type { Problem } from '../../result/index.ts';

/** Not of equal steps of latitude and longitude. */
export const notRegular = (grid: GridFrame, where: string): Problem => ({
  code: 'cut.grid-not-regular',
  where,
  what: `The grid is ${GRID_NAMES[grid.kind]}, of which no part can be written as it is.`,
  expected: 'rows and columns at equal distances of latitude and longitude',
  remedy:
    'Ask for resampling: values are then interpolated to a regular grid of like spacing, and change where the weather changes sharply.',
});

const GRID_NAMES: Readonly<Record<GridFrame['kind'], string>> = {
  latlon: 'regular',
  rotated: 'one of turned latitudes and longitudes',
  gaussian: 'Gaussian',
  mercator: 'a Mercator map',
  conic: 'a conic or stereographic map',
};

/** Every n-th line does not reach around the area. */
export const notThinned = (grid: GridFrame, everyPointCount: number, where: string): Problem => ({
  code: 'cut.grid-not-thinned',
  where,
  what: `Every ${everyPointCount}. of ${grid.columnCount} columns and ${grid.rowCount} rows does not reach around the area.`,
  expected: 'a smaller number, or one that divides the columns of a grid that goes all the way round',
  remedy: 'Keep more grid points.',
});
