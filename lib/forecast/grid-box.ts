/** The part of the globe a grid covers. */
import { type GridFrame, positionAt, toIndex } from '../grib/index.ts';
import { wrap360Deg } from '../units/index.ts';
import { type Box, boxAround, lonSpanDeg, signedLon } from './box.ts';
import { outlineOfBox, outlineOfGrid } from './grid-outline.ts';
import { isMeridional, type MeridionalGrid, westLonOf } from './grid-kinds.ts';

/** The area a grid covers; a grid that goes all the way round reaches from -180 to 180. On a map: the smallest box around it. */
export function boxOfGrid(grid: GridFrame): Box {
  if (!isMeridional(grid)) return boxOfMap(grid);
  const spanDeg = grid.lonStepDeg * (grid.columnCount - 1);
  const westLon = grid.wrapsInLon ? -180 : signedLon(westLonOf(grid));
  const [southLat, northLat] = latsOf(grid);
  return {
    southWest: { lat: southLat, lon: westLon },
    northEast: { lat: northLat, lon: grid.wrapsInLon ? 180 : signedLon(westLon + spanDeg) },
  };
}

/** Latitudes of the first and the last row. */
export function latsOf(grid: MeridionalGrid): readonly [number, number] {
  if (grid.kind === 'latlon') return [grid.southWest.lat, grid.southWest.lat + grid.latStepDeg * (grid.rowCount - 1)];
  const lastRow = positionAt(grid, { columnIndex: 0, rowIndex: grid.rowCount - 1 });
  return [positionAt(grid, { columnIndex: 0, rowIndex: 0 }).lat, lastRow.lat];
}

/** Around the outline; a pole inside the grid brings all longitudes with it. */
function boxOfMap(grid: GridFrame): Box {
  const around = boxAround(outlineOfGrid(grid));
  if (around === null) throw new Error('a grid has an outline');
  const hasNorthPole = toIndex(grid, { lat: 90, lon: 0 }) !== null;
  const hasSouthPole = toIndex(grid, { lat: -90, lon: 0 }) !== null;
  const isRound = hasNorthPole || hasSouthPole || grid.wrapsInLon;
  return {
    southWest: { lat: hasSouthPole ? -90 : around.southWest.lat, lon: isRound ? -180 : around.southWest.lon },
    northEast: { lat: hasNorthPole ? 90 : around.northEast.lat, lon: isRound ? 180 : around.northEast.lon },
  };
}

/** Whether every place of `inner` lies in the grid. */
export function gridCovers(grid: GridFrame, inner: Box): boolean {
  if (!isMeridional(grid)) return outlineOfBox(inner).every((place) => toIndex(grid, place) !== null);
  const outer = boxOfGrid(grid);
  const tolerance = 1e-6;
  const coversLat =
    inner.southWest.lat >= outer.southWest.lat - tolerance && inner.northEast.lat <= outer.northEast.lat + tolerance;
  const fromWestDeg = wrap360Deg(inner.southWest.lon - outer.southWest.lon + tolerance) - tolerance;
  const coversLon = grid.wrapsInLon || fromWestDeg + lonSpanDeg(inner) <= lonSpanDeg(outer) + tolerance;
  return coversLat && coversLon;
}
