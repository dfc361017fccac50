import type { QuantityCoverage } from '../../../lib/forecast/index.ts';
import { type Position, unwrapLon } from '../../../lib/geo/index.ts';
import { type FrameIndex, positionAt } from '../../../lib/grib/index.ts';
import type { AreaCovered } from './coverage-model.ts';

/** Points along each side: sides of turned and conic grids bend on the chart. */
const POINTS_PER_SIDE = 24;

/** The outline of a grid, once around it. */
export function areaCovered({ grid, area, gridStepDeg }: QuantityCoverage): AreaCovered {
  const { southWest, northEast } = area;
  const around = { southLat: southWest.lat, northLat: northEast.lat, stepDeg: gridStepDeg };
  if (grid.wrapsInLon) return { ring: null, ...around };
  const [lastColumn, lastRow] = [grid.columnCount - 1, grid.rowCount - 1];
  const shares = Array.from({ length: POINTS_PER_SIDE }, (_, k) => k / POINTS_PER_SIDE);
  const corners: FrameIndex[] = [
    ...shares.map((share) => ({ columnIndex: share * lastColumn, rowIndex: 0 })),
    ...shares.map((share) => ({ columnIndex: lastColumn, rowIndex: share * lastRow })),
    ...shares.map((share) => ({ columnIndex: (1 - share) * lastColumn, rowIndex: lastRow })),
    ...shares.map((share) => ({ columnIndex: 0, rowIndex: (1 - share) * lastRow })),
  ];
  return { ring: runningOn(corners.map((index) => positionAt(grid, index))), ...around };
}

/** Each longitude within half a turn of the one before. */
export function runningOn(places: readonly Position[]): Position[] {
  let last: Position | undefined;
  return places.map(({ lat, lon }) => {
    last = { lat, lon: last === undefined ? lon : unwrapLon(lon, last) };
    return last;
  });
}
