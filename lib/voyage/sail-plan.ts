import type { Boat, Handling } from '../boat/index.ts';
import { handle, sailCourse } from '../boat/index.ts';
import type { Position } from '../geo/index.ts';
import { rhumb, rhumbPoint } from '../geo/index.ts';
import type { SlotGrid } from '../time/index.ts';
import { slotEpochMs } from '../time/index.ts';
import { degFromRad, wrap360Deg } from '../units/index.ts';
import type { MeasuredTrack } from '../track/index.ts';
import { nearestOnTrack, positionAtNm } from '../track/index.ts';
import type { Course, SampleWeather } from './course.ts';
import { emptyCourse } from './course.ts';

/** How the boat is sailed during one slot. */
export interface SlotSailing {
  readonly handling: Handling | null;
  readonly sailStateId: string;
}

export interface PlanVoyage {
  readonly boat: Boat;
  readonly track: MeasuredTrack;
  readonly grid: SlotGrid;
  readonly sampleReference: SampleWeather;
  readonly sailingAt: (slotIndex: number) => SlotSailing;
}

/** Farther off than this the boat has left the track and steers for the next waypoint. */
const ON_TRACK_NM = 1;

/**
 * Sails a plan with true positions, slot by slot: along the track while on it, where the handling takes her while
 * working, and from there straight to the next waypoint.
 */
export function sailPlan(voyage: PlanVoyage): Course {
  const course = emptyCourse(voyage.grid);
  let place = onTrack(voyage.track, 0);
  for (let i = 0; i < voyage.grid.slotCount; i++) {
    course.lat[i] = place.position.lat;
    course.lon[i] = place.position.lon;
    course.alongNm[i] = place.alongNm;
    course.courseTowardDegTrue[i] = place.courseTowardDegTrue;
    place = sailSlot(voyage, place, i);
  }
  return course;
}

interface Place {
  readonly position: Position;
  readonly alongNm: number;
  readonly courseTowardDegTrue: number;
  readonly offTrack: boolean;
}

function onTrack(track: MeasuredTrack, alongNm: number): Place {
  const heldNm = Math.min(track.lengthNm, alongNm);
  const at = positionAtNm(track, heldNm);
  return { position: at.position, alongNm: heldNm, courseTowardDegTrue: at.courseTowardDegTrue, offTrack: false };
}

function sailSlot(voyage: PlanVoyage, place: Place, i: number): Place {
  const slotH = voyage.grid.slotMin / 60;
  const weather = voyage.sampleReference({
    epochMs: Float64Array.of(slotEpochMs(voyage.grid, i)),
    lat: Float64Array.of(place.position.lat),
    lon: Float64Array.of(place.position.lon),
  });
  const twsKn = weather.windKn[0] ?? Number.NaN;
  if (Number.isNaN(twsKn)) return place;
  const wind = {
    twsKn,
    windFromDegTrue: weather.windFromDegTrue[0] ?? 0,
    courseTowardDegTrue: place.courseTowardDegTrue,
  };
  const { handling, sailStateId } = voyage.sailingAt(i);
  if (handling !== null && handling.heading.kind === 'wind-angle') {
    const { velocity } = handle(voyage.boat, handling, { ...wind, sailStateId });
    const distanceNm = Math.hypot(velocity.eastKn, velocity.northKn) * slotH;
    const towardDegTrue = wrap360Deg(degFromRad(Math.atan2(velocity.eastKn, velocity.northKn)));
    return offTrackAt(
      voyage.track,
      rhumbPoint(place.position, { courseTowardDegTrue: towardDegTrue, distanceNm }),
      place,
    );
  }
  const alongKn =
    handling === null
      ? sailCourse(voyage.boat, sailStateId, wind).alongTrackKn
      : handle(voyage.boat, handling, { ...wind, sailStateId }).alongTrackKn;
  return place.offTrack
    ? towardWaypoint(voyage.track, place, alongKn * slotH)
    : onTrack(voyage.track, Math.max(0, place.alongNm + alongKn * slotH));
}

function offTrackAt(track: MeasuredTrack, position: Position, before: Place): Place {
  const nearest = nearestOnTrack(track, position);
  if (Math.abs(nearest.offNm) < ON_TRACK_NM && !before.offTrack) {
    const at = positionAtNm(track, nearest.alongNm);
    return { position, alongNm: nearest.alongNm, courseTowardDegTrue: at.courseTowardDegTrue, offTrack: true };
  }
  const aim = nextWaypoint(track, nearest.alongNm);
  const courseTowardDegTrue = rhumb(position, aim.position).courseTowardDegTrue;
  return { position, alongNm: nearest.alongNm, courseTowardDegTrue, offTrack: true };
}

function towardWaypoint(track: MeasuredTrack, place: Place, distanceNm: number): Place {
  const nearest = nearestOnTrack(track, place.position);
  const aim = nextWaypoint(track, nearest.alongNm);
  const leg = rhumb(place.position, aim.position);
  if (leg.distanceNm <= distanceNm) return onTrack(track, aim.alongNm + distanceNm - leg.distanceNm);
  const position = rhumbPoint(place.position, { courseTowardDegTrue: leg.courseTowardDegTrue, distanceNm });
  return { position, alongNm: nearest.alongNm, courseTowardDegTrue: leg.courseTowardDegTrue, offTrack: true };
}

/** The waypoint ahead; one closer than this is passed by. */
const PASS_BY_NM = 10;

function nextWaypoint(track: MeasuredTrack, alongNm: number): { position: Position; alongNm: number } {
  for (const [index, waypointAlongNm] of track.waypointAlongNm.entries()) {
    const waypoint = track.track.waypoints[index];
    if (waypoint && waypointAlongNm > alongNm + PASS_BY_NM) return { position: waypoint, alongNm: waypointAlongNm };
  }
  return { position: positionAtNm(track, track.lengthNm).position, alongNm: track.lengthNm };
}

/** Miles still to sail to the end of the track from each slot's place. */
export function toGoNm(course: Course, track: MeasuredTrack, slotIndex: number): number {
  const position = { lat: course.lat[slotIndex] ?? 0, lon: course.lon[slotIndex] ?? 0 };
  const nearest = nearestOnTrack(track, position);
  if (Math.abs(nearest.offNm) < ON_TRACK_NM) return track.lengthNm - nearest.alongNm;
  const aim = nextWaypoint(track, nearest.alongNm);
  return rhumb(position, aim.position).distanceNm + track.lengthNm - aim.alongNm;
}
