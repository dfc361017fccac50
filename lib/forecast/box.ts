import type { Position } from '../geo/index.ts';
import { wrap360Deg } from '../units/index.ts';
import type { LatLonGrid } from './lat-lon-grid.ts';

/** An area between two parallels, going east from `southWest.lon` to `northEast.lon` (across the date line if need be). */
export interface Box {
  readonly southWest: Position;
  readonly northEast: Position;
}

/** The area a grid covers; a grid that goes all the way round reaches from -180 to 180. */
export function boxOfGrid(grid: LatLonGrid): Box {
  const northLat = grid.southWest.lat + grid.latStepDeg * (grid.rowCount - 1);
  const spanDeg = grid.lonStepDeg * (grid.columnCount - 1);
  const westLon = grid.wrapsInLon ? -180 : signedLon(grid.southWest.lon);
  return {
    southWest: { lat: grid.southWest.lat, lon: westLon },
    northEast: { lat: northLat, lon: grid.wrapsInLon ? 180 : signedLon(westLon + spanDeg) },
  };
}

/** Longitude in (-180, 180], so that an east edge on the date line reads 180. */
const signedLon = (lon: number): number => {
  const wrapped = wrap360Deg(lon);
  return wrapped > 180 ? wrapped - 360 : wrapped;
};

/** Degrees of longitude a box spans, 0 to 360. */
export const lonSpanDeg = (box: Box): number =>
  box.northEast.lon - box.southWest.lon >= 360 ? 360 : wrap360Deg(box.northEast.lon - box.southWest.lon);

/** Smallest box around places; null for none. Longitudes: the complement of the widest gap between them. */
export function boxAround(positions: readonly Position[]): Box | null {
  const lons = positions.map(({ lon }) => wrap360Deg(lon)).toSorted((a, b) => a - b);
  const [firstLon] = lons;
  if (firstLon === undefined) return null;
  let [westLon, eastLon, widestDeg] = [firstLon, lons.at(-1) ?? firstLon, -1];
  for (const [i, lon] of lons.entries()) {
    const next = lons[i + 1] ?? firstLon + 360;
    if (next - lon > widestDeg) [westLon, eastLon, widestDeg] = [next, lon, next - lon];
  }
  const lats = positions.map(({ lat }) => lat);
  return {
    southWest: { lat: Math.min(...lats), lon: signedLon(westLon) },
    northEast: { lat: Math.max(...lats), lon: signedLon(eastLon) },
  };
}

/** Whether every place of `inner` lies in the grid. */
export function gridCovers(grid: LatLonGrid, inner: Box): boolean {
  const outer = boxOfGrid(grid);
  const tolerance = 1e-6;
  const coversLat =
    inner.southWest.lat >= outer.southWest.lat - tolerance && inner.northEast.lat <= outer.northEast.lat + tolerance;
  const fromWestDeg = wrap360Deg(inner.southWest.lon - outer.southWest.lon + tolerance) - tolerance;
  const coversLon = grid.wrapsInLon || fromWestDeg + lonSpanDeg(inner) <= lonSpanDeg(outer) + tolerance;
  return coversLat && coversLon;
}
