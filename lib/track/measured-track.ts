import {
  greatCircle,
  greatCirclePoint,
  meridionalPartsRad,
  normalPosition,
  rhumb,
  unwrapLon,
  type Position,
} from '../geo/index.ts';
import { wrap360Deg } from '../units/index.ts';
import type { LegKind, Track, Waypoint } from './track.ts';

/** One leg, measured. */
export interface MeasuredLeg {
  readonly kind: LegKind;
  readonly from: Position;
  readonly to: Position;
  readonly startNm: number;
  readonly lengthNm: number;
  /** Course on leaving; a rhumb line keeps it. */
  readonly courseTowardDegTrue: number;
}

/** A track measured once, for many questions. */
export interface MeasuredTrack {
  readonly track: Track;
  readonly lengthNm: number;
  /** Distance along the track to each waypoint. */
  readonly waypointAlongNm: readonly number[];
  /** Leg i runs from waypoint i to waypoint i + 1. */
  readonly legs: readonly MeasuredLeg[];
}

/** A place on the track and the course to sail there. */
export interface TrackPlace {
  readonly position: Position;
  readonly courseTowardDegTrue: number;
  readonly legIndex: number;
}

/** Measures a track. Throws for fewer than two waypoints: a track read from outside has been checked. */
export function measureTrack(track: Track): MeasuredTrack {
  if (track.waypoints.length < 2) throw new Error('a track has at least two waypoints');
  const waypointAlongNm = [0];
  const legs: MeasuredLeg[] = [];
  let alongNm = 0;
  for (const [index, to] of track.waypoints.entries()) {
    const from = track.waypoints[index - 1];
    if (from === undefined) continue;
    const leg = measureLeg(from, to, alongNm);
    alongNm += leg.lengthNm;
    legs.push(leg);
    waypointAlongNm.push(alongNm);
  }
  return { track, lengthNm: alongNm, waypointAlongNm, legs };
}

/** Length of a track [nm], rhumb lines and great circles as its legs are sailed. */
export const trackLengthNm = (track: Track): number => measureTrack(track).lengthNm;

/**
 * Place at a distance along the track. Before the start it is the start, beyond the end the end.
 *
 * At a waypoint the course is that of the leg that leaves it; legs without length are passed over.
 */
export function positionAtNm(measured: MeasuredTrack, alongNm: number): TrackPlace {
  const legIndex = legIndexAt(measured, alongNm);
  const leg = measured.legs[legIndex];
  if (leg === undefined) throw new Error('a track has at least one leg');
  const onLegNm = Math.min(leg.lengthNm, Math.max(0, alongNm - leg.startNm));
  return { ...placeOnLeg(leg, onLegNm), legIndex };
}

/** Place and course at a distance from the start of a leg, within its length. */
export function placeOnLeg(leg: MeasuredLeg, onLegNm: number): { position: Position; courseTowardDegTrue: number } {
  if (leg.kind === 'rhumb') return { position: onRhumbLeg(leg, onLegNm), courseTowardDegTrue: leg.courseTowardDegTrue };
  const way = { courseTowardDegTrue: leg.courseTowardDegTrue, distanceNm: onLegNm };
  const position = greatCirclePoint(leg.from, way);
  // Looking back from the end keeps the course defined where nothing is left to sail.
  const courseTowardDegTrue =
    onLegNm * 2 < leg.lengthNm
      ? greatCircle(position, leg.to).courseTowardDegTrue
      : wrap360Deg(greatCircle(position, leg.from).courseTowardDegTrue + 180);
  return { position, courseTowardDegTrue };
}

function measureLeg(from: Waypoint, to: Waypoint, startNm: number): MeasuredLeg {
  const { courseTowardDegTrue, distanceNm } = to.leg === 'rhumb' ? rhumb(from, to) : greatCircle(from, to);
  return { kind: to.leg, from, to, startNm, lengthNm: distanceNm, courseTowardDegTrue };
}

/** Last leg with a length that starts at or before the distance; the first of them where none does. */
function legIndexAt({ legs }: MeasuredTrack, alongNm: number): number {
  let low = 0;
  let high = legs.length - 1;
  while (low < high) {
    const middle = Math.ceil((low + high) / 2);
    if ((legs[middle]?.startNm ?? 0) <= alongNm) low = middle;
    else high = middle - 1;
  }
  while (low > 0 && legs[low]?.lengthNm === 0) low--;
  while (low < legs.length - 1 && legs[low]?.lengthNm === 0) low++;
  return low;
}

function onRhumbLeg(leg: MeasuredLeg, onLegNm: number): Position {
  const share = leg.lengthNm === 0 ? 0 : onLegNm / leg.lengthNm;
  const lat = leg.from.lat + (leg.to.lat - leg.from.lat) * share;
  const dLonDeg = unwrapLon(leg.to.lon, leg.from) - leg.from.lon;
  return normalPosition({ lat, lon: leg.from.lon + dLonDeg * lonShare(leg, { lat, share }) });
}

/** Longitude runs with the meridional parts, not with the miles, except along a parallel. */
function lonShare(leg: MeasuredLeg, at: { readonly lat: number; readonly share: number }): number {
  if (Math.abs(leg.to.lat - leg.from.lat) < 1e-6) return at.share;
  const startRad = meridionalPartsRad(leg.from.lat);
  return (meridionalPartsRad(at.lat) - startRad) / (meridionalPartsRad(leg.to.lat) - startRad);
}
