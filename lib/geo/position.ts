import { wrap180Deg } from '../units/index.ts';

/** A place on the earth: signed degrees, north and east positive; lon in [-180, 180]. */
export interface Position {
  readonly lat: number;
  readonly lon: number;
}

/** Nautical miles in a degree of arc: the earth is taken as a sphere, 0.2-0.3 % off the ellipsoid. */
export const NM_PER_DEG = 60;

/** True for finite latitudes in [-90, 90] and longitudes in [-180, 180]. */
export function isPosition(at: Position): boolean {
  return Math.abs(at.lat) <= 90 && Math.abs(at.lon) <= 180;
}

/** The longitude equal to `lonDeg` that lies within 180° of `near`, so that differences do not jump at the date line. */
export function unwrapLon(lon: number, near: Position): number {
  return near.lon + wrap180Deg(lon - near.lon);
}

/** The same place with its longitude in [-180, 180). */
export function normalPosition(at: Position): Position {
  return { lat: at.lat, lon: wrap180Deg(at.lon) };
}
