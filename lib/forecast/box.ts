import type { Position } from '../geo/index.ts';
import { wrap360Deg } from '../units/index.ts';

/** An area between two parallels, going east from `southWest.lon` to `northEast.lon` (across the date line if need be). */
export interface Box {
  readonly southWest: Position;
  readonly northEast: Position;
}

/** Longitude in (-180, 180], so that an east edge on the date line reads 180. */
export const signedLon = (lon: number): number => {
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
