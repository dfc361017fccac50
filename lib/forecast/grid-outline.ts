/** Outlines: of a box in a grid's own columns and rows, of a grid on the globe. For grids whose columns are no meridians. */
import type { Position } from '../geo/index.ts';
import { type FrameIndex, type GridFrame, indexOfPlace, positionAt } from '../grib/index.ts';
import { type Box, lonSpanDeg } from './box.ts';

/** Points along each side. Between two of them a side of 60° bends by less than a kilometre on a map in use. */
const POINTS_PER_SIDE = 180;

/** Shares of the way along a side, both ends included. */
const sharesAlong = Array.from({ length: POINTS_PER_SIDE + 1 }, (_, k) => k / POINTS_PER_SIDE);

/** Places along the four sides of a box. */
export function outlineOfBox(box: Box): Position[] {
  const { southWest, northEast } = box;
  const spanDeg = lonSpanDeg(box);
  const lonAt = (share: number): number => southWest.lon + share * spanDeg;
  const latAt = (share: number): number => southWest.lat + share * (northEast.lat - southWest.lat);
  return sharesAlong.flatMap((share) => [
    { lat: southWest.lat, lon: lonAt(share) },
    { lat: northEast.lat, lon: lonAt(share) },
    { lat: latAt(share), lon: lonAt(0) },
    { lat: latAt(share), lon: lonAt(1) },
  ]);
}

/** Places along the four sides of a grid. */
export function outlineOfGrid(grid: GridFrame): Position[] {
  const [lastColumn, lastRow] = [grid.columnCount - 1, grid.rowCount - 1];
  return sharesAlong
    .flatMap((share): FrameIndex[] => [
      { columnIndex: share * lastColumn, rowIndex: 0 },
      { columnIndex: share * lastColumn, rowIndex: lastRow },
      { columnIndex: 0, rowIndex: share * lastRow },
      { columnIndex: lastColumn, rowIndex: share * lastRow },
    ])
    .map((index) => positionAt(grid, index));
}

/** Least and greatest column and row of a box, followed beyond the edges of the grid; null when the map does not reach all of it. */
export function indexRangeOfBox(grid: GridFrame, box: Box): { least: FrameIndex; most: FrameIndex } | null {
  const indices = outlineOfBox(box).map((place) => indexOfPlace(grid, place));
  const columns = indices.map(({ columnIndex }) => columnIndex);
  const rows = indices.map(({ rowIndex }) => rowIndex);
  if (![...columns, ...rows].every(Number.isFinite)) return null;
  return {
    least: { columnIndex: Math.min(...columns), rowIndex: Math.min(...rows) },
    most: { columnIndex: Math.max(...columns), rowIndex: Math.max(...rows) },
  };
}
