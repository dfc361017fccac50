import { meridionalPartsRad, type Position, unwrapLon } from '../../../lib/geo/index.ts';
import { degFromRad, radFromDeg } from '../../../lib/units/index.ts';
import type { MapDrawing, PxPoint } from './map-model.ts';

export interface MapSize {
  readonly widthPx: number;
  readonly heightPx: number;
  readonly inside: MapDrawing['inside'];
}

/** A piece of a Mercator chart: which part of the earth, and where on the drawing. */
export interface MapFrame extends MapSize {
  readonly centreLon: number;
  /** Pixels to the radian of longitude. */
  readonly pxPerRad: number;
  /** Place of the equator at the central meridian. */
  readonly origin: PxPoint;
  readonly bounds: { readonly west: number; readonly east: number; readonly south: number; readonly north: number };
  /** Longitudes are taken as they stand: 181 lies east of 179. */
  readonly place: (at: Position) => PxPoint;
}

/** Never less than so much of a degree of latitude across, so that a boat that lies still has sea around her. */
const LEAST_SPAN_DEG = 1.5;
/** Share of the shown places' span left free on each side. */
const FREE_SHARE = 0.18;
/** Mercator charts end before the poles. */
const MOST_LAT_DEG = 80;

/**
 * Frame around places on the Mercator projection of the sphere: x = R λ, y = R ln tan(π/4 + φ/2).
 *
 * Snyder, Map Projections: A Working Manual (USGS Professional Paper 1395, 1987), equations 7-1 and 7-2.
 *
 * @param places at least one; longitudes that run on over the date line
 */
export function mapFrame(places: readonly Position[], size: MapSize): MapFrame {
  const { left, top, right, bottom } = size.inside;
  const lons = spanOf(places.map(({ lon }) => lon));
  const lats = places.map(({ lat }) => Math.max(-MOST_LAT_DEG, Math.min(MOST_LAT_DEG, lat)));
  const parts = spanOf(lats.map(meridionalPartsRad));
  const latDeg = latOfParts(parts.middle);
  const leastRad = radFromDeg(LEAST_SPAN_DEG) / Math.cos(radFromDeg(latDeg));
  const acrossRad = Math.max(leastRad, radFromDeg(lons.width)) * (1 + 2 * FREE_SHARE);
  const upRad = Math.max(leastRad, parts.width) * (1 + 2 * FREE_SHARE);
  const pxPerRad = Math.min((right - left) / acrossRad, (bottom - top) / upRad);
  const centreLon = lons.middle;
  const origin = { x: (left + right) / 2, y: (top + bottom) / 2 + parts.middle * pxPerRad };
  const halfDeg = degFromRad((right - left) / 2 / pxPerRad);
  return {
    ...size,
    centreLon,
    pxPerRad,
    origin,
    bounds: {
      west: centreLon - halfDeg,
      east: centreLon + halfDeg,
      south: latOfParts((origin.y - bottom) / pxPerRad),
      north: latOfParts((origin.y - top) / pxPerRad),
    },
    place: ({ lat, lon }) => ({
      x: origin.x + radFromDeg(lon - centreLon) * pxPerRad,
      y: origin.y - meridionalPartsRad(lat) * pxPerRad,
    }),
  };
}

/** Inverse of the meridional parts: Snyder's equation 7-4. */
export const latOfParts = (partsRad: number): number => degFromRad(Math.atan(Math.sinh(partsRad)));

/** A line through places; longitudes run on from the central meridian. Straight between them: rhumb lines. */
export function linePath(frame: MapFrame, places: readonly Position[]): string {
  let last: Position = { lat: 0, lon: frame.centreLon };
  const points = places.map(({ lat, lon }) => {
    last = { lat, lon: unwrapLon(lon, last) };
    return frame.place(last);
  });
  return pathOf(points);
}

/** Path through points; empty for fewer than two. */
export const pathOf = (points: readonly PxPoint[]): string =>
  points.length < 2 ? '' : `M${points.map(({ x, y }) => `${tenth(x)} ${tenth(y)}`).join('L')}`;

export const tenth = (px: number): number => Math.round(px * 10) / 10;

function spanOf(values: readonly number[]): { middle: number; width: number } {
  const [least, most] = [Math.min(...values), Math.max(...values)];
  return { middle: (least + most) / 2, width: most - least };
}
