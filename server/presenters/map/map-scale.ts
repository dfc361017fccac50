import { NM_PER_DEG } from '../../../lib/geo/index.ts';
import { radFromDeg } from '../../../lib/units/index.ts';
import { latOfParts, type MapFrame, tenth } from './map-frame.ts';
import type { MapLabel } from './map-model.ts';

const LENGTHS_NM = [5, 10, 20, 50, 100, 200, 500, 1000];
const MOST_SHARE = 0.3;

/** A bar of round miles under the map, true on the parallel in its middle. */
export function scaleBar(frame: MapFrame): { path: string; label: MapLabel } {
  const { inside, origin, pxPerRad } = frame;
  const middleLat = latOfParts((origin.y - (inside.top + inside.bottom) / 2) / pxPerRad);
  const pxPerNm = pxPerNmAt(frame, middleLat);
  const mostNm = ((inside.right - inside.left) * MOST_SHARE) / pxPerNm;
  const lengthNm = LENGTHS_NM.findLast((nm) => nm <= mostNm) ?? LENGTHS_NM[0] ?? 5;
  const y = frame.heightPx - 10;
  const [x1, x2] = [inside.left, tenth(inside.left + lengthNm * pxPerNm)];
  const hemisphere = middleLat < 0 ? 'S' : 'N';
  return {
    path: `M${x1} ${y - 5}V${y}H${x2}V${y - 5}`,
    label: {
      text: `${lengthNm} nm at ${Math.round(Math.abs(middleLat))}°${hemisphere}`,
      x: x2 + 8,
      y: y + 1,
      anchor: 'start',
      kind: 'scale',
    },
  };
}

/** Length of a mile: a chart grows with the secant of the latitude. Snyder, PP 1395, equation 7-3. */
const pxPerNmAt = ({ pxPerRad }: MapFrame, lat: number): number =>
  (radFromDeg(1 / NM_PER_DEG) * pxPerRad) / Math.cos(radFromDeg(lat));
