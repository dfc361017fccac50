export { coastAheadNm, coastlineOf, type Coastline, type LookAhead } from './coast-ahead.ts';
export { coastNear } from './coast-near.ts';
export { courseToSteer, madeGood, throughWaterFor, type Current, type Way } from './current.ts';
export { formatLat, formatLon, formatPosition, parsePosition } from './degrees-minutes.ts';
export {
  crossTrack,
  greatCircle,
  greatCircleFraction,
  greatCircleLatAtLon,
  greatCirclePoint,
  greatCircleVertex,
  type CourseDistance,
} from './great-circle.ts';
export { isPosition, NM_PER_DEG, normalPosition, unwrapLon, type Position } from './position.ts';
export { meridionalPartsRad, rhumb, rhumbPoint } from './rhumb.ts';
export {
  departureNm,
  distanceRunNm,
  dLonDegOf,
  midLatitudeCourse,
  midLatitudePoint,
  planeCourse,
  planeRun,
  traverseRun,
  type Run,
} from './sailings.ts';
