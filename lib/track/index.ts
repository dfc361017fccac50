export { formatGpx, parseGpx, type GpxMark } from './gpx.ts';
export {
  measureTrack,
  positionAtNm,
  trackLengthNm,
  type MeasuredLeg,
  type MeasuredTrack,
  type TrackPlace,
} from './measured-track.ts';
export { nearestOnTrack } from './nearest-on-track.ts';
export type { LegKind, Track, Waypoint } from './track.ts';
