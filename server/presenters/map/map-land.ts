import { geoMercator, geoPath } from 'd3-geo';
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
  const coordinates = pieces.filter((piece) => mayLieIn(piece, frame)).map(({ rings }) => rings);
  return geoPath(projection).digits(1)({ type: 'MultiPolygon', coordinates }) ?? '';
}

/** Around the earth more than once: frames east of 180° are asked for in both ways to count. */
function mayLieIn({ box }: LandPiece, { bounds }: MapFrame): boolean {
  const isInLat = box.south <= bounds.north && bounds.south <= box.north;
  return isInLat && [-360, 0, 360].some((turn) => box.west + turn <= bounds.east && bounds.west <= box.east + turn);
}
