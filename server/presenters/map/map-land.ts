import { geoMercator, geoPath } from 'd3-geo';
import { wrap180Deg } from '../../../lib/units/index.ts';
import type { Land, LandPiece } from '../../coastline.ts';
import type { MapFrame } from './map-frame.ts';

/** The land that lies in a frame, as one path. */
export function landPath({ pieces }: Land, frame: MapFrame): string {
  const { left, top, right, bottom } = frame.inside;
  const projection = geoMercator()
    .rotate([-frame.centreLon, 0])
    .scale(frame.pxPerRad)
    .translate([frame.origin.x, frame.origin.y])
    .clipExtent([
      [left, top],
      [right, bottom],
    ]);
  const coordinates = pieces
    .filter((piece) => mayLieIn(piece, frame) && liesIn(piece, frame))
    .map(({ rings }) => rings);
  return geoPath(projection).digits(1)({ type: 'MultiPolygon', coordinates }) ?? '';
}

/** Around the earth more than once: frames east of 180° are asked for in both ways to count. */
function mayLieIn({ box }: LandPiece, { bounds }: MapFrame): boolean {
  const isInLat = box.south <= bounds.north && bounds.south <= box.north;
  return isInLat && [-360, 0, 360].some((turn) => box.west + turn <= bounds.east && bounds.west <= box.east + turn);
}

/**
 * Whether a coast of the piece may be seen in the frame, or the piece lies all around it. To clip a continent takes tens of
 * milliseconds, and the box of one lies over half the oceans; this is looked at in one pass.
 */
function liesIn({ rings }: LandPiece, { bounds, centreLon }: MapFrame): boolean {
  const halfDeg = (bounds.east - bounds.west) / 2;
  const centreLat = (bounds.south + bounds.north) / 2;
  // Half around the earth, east and west of the frame's centre are no longer apart.
  if (halfDeg > 90) return true;
  let isAround = false;
  for (const ring of rings) {
    let [lastLon, lastLat] = [Number.NaN, Number.NaN];
    for (const [cornerLon = Number.NaN, lat = Number.NaN] of ring) {
      const lon = wrap180Deg(cornerLon - centreLon);
      if (Math.abs(lon - lastLon) <= 180) {
        const crosses = Math.min(lon, lastLon) <= halfDeg && Math.max(lon, lastLon) >= -halfDeg;
        if (crosses && Math.min(lat, lastLat) <= bounds.north && Math.max(lat, lastLat) >= bounds.south) return true;
        // A meridian from the centre to the north pole crosses the coasts of land around it an odd number of times.
        if (lon < 0 !== lastLon < 0 && Math.min(lat, lastLat) > centreLat) isAround = !isAround;
      }
      [lastLon, lastLat] = [lon, lat];
    }
  }
  return isAround;
}
