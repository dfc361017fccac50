/** The regular grid that takes the place of one that cannot be written. */
import type { GridFrame, LatLonFrame } from '../../grib/index.ts';
import { radFromDeg } from '../../units/index.ts';
import { lonSpanDeg } from '../box.ts';
import { stepsOf } from '../coverage.ts';
import type { Around } from './cut-lines.ts';

/** Corners and steps are coded in millionths of a degree. */
const wholeMicro = (angleDeg: number): number => Math.round(angleDeg * 1e6) / 1e6;

/** A grid around the box of the area, as fine as another at its middle, with every n-th point if so asked. */
export function likeGrid(whole: GridFrame, { box, spareCellCount, everyPointCount }: Around): LatLonFrame {
  const middleLat = (box.southWest.lat + box.northEast.lat) / 2;
  const steps = stepsOf(whole);
  // Turned and conic grids count distances along the ground.
  const isOnGround = whole.kind === 'conic' || whole.kind === 'rotated';
  const lonStretch = isOnGround ? 1 / Math.max(0.05, Math.cos(radFromDeg(middleLat))) : 1;
  const latStepDeg = wholeMicro(steps.lat * everyPointCount);
  const lonStepDeg = wholeMicro(Math.min(steps.lon * lonStretch * everyPointCount, 30));
  const southLat = Math.max(-90, Math.floor(box.southWest.lat / latStepDeg - spareCellCount) * latStepDeg);
  const northLat = Math.min(90, Math.ceil(box.northEast.lat / latStepDeg + spareCellCount) * latStepDeg);
  const westLon = Math.floor(box.southWest.lon / lonStepDeg - spareCellCount) * lonStepDeg;
  const eastLon = box.southWest.lon + lonSpanDeg(box) + spareCellCount * lonStepDeg;
  const mostColumnCount = Math.floor(360 / lonStepDeg);
  return {
    kind: 'latlon',
    southWest: { lat: wholeMicro(southLat), lon: wholeMicro(westLon) },
    latStepDeg,
    lonStepDeg,
    rowCount: Math.floor((northLat - southLat) / latStepDeg + 1e-6) + 1,
    columnCount: Math.min(mostColumnCount, Math.ceil((eastLon - westLon) / lonStepDeg - 1e-6) + 1),
    wrapsInLon: false,
  };
}
