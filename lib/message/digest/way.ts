import { normalPosition, type Position, rhumbPoint } from '../../geo/index.ts';
import { type MeasuredTrack, measureTrack, nearestOnTrack, positionAtNm } from '../../track/index.ts';
import { wrap360Deg } from '../../units/index.ts';
import { PLACE_STEPS } from './digest.ts';
import { onScale, SCALES } from './scales.ts';

/** The way a digest tells of: its places joined by rhumb lines, and carried on straight at both ends. */
export interface DigestWay {
  readonly track: MeasuredTrack;
  /** Of every step, along `track`. */
  readonly alongNm: readonly number[];
}

/** The way is carried on by so much before its first place and behind its last, for a boat that is late or early. */
const BEYOND_NM = 400;

/** A place as it arrives. */
export function placeOnScale(place: Position): Position {
  const { lat, lon } = normalPosition(place);
  const lonDeg = onScale(SCALES.lon, lon);
  return { lat: onScale(SCALES.lat, lat), lon: lonDeg < 180 ? lonDeg : -180 };
}

/** The way of places that lie `PLACE_STEPS` apart, the last at the last step. */
export function wayOf(places: readonly Position[], stepCount: number): DigestWay {
  const [first, last] = [places[0], places.at(-1)];
  if (first === undefined || last === undefined) throw new Error('a digest has a place');
  const inner = measured(places);
  const leaving = inner.legs.find((leg) => leg.lengthNm > 0)?.courseTowardDegTrue ?? 90;
  const arriving = inner.legs.findLast((leg) => leg.lengthNm > 0)?.courseTowardDegTrue ?? 90;
  const before = rhumbPoint(first, { courseTowardDegTrue: wrap360Deg(leaving + 180), distanceNm: BEYOND_NM });
  const behind = rhumbPoint(last, { courseTowardDegTrue: arriving, distanceNm: BEYOND_NM });
  const track = measured([before, ...places, behind]);
  // Waypoint 0 is the one before the first place.
  const alongOfPlace = (i: number): number => track.waypointAlongNm[Math.min(i, places.length - 1) + 1] ?? 0;
  const alongNm = Array.from({ length: stepCount }, (_, stepIndex) => {
    const index = Math.floor(stepIndex / PLACE_STEPS);
    const fromStep = index * PLACE_STEPS;
    const toStep = Math.min(fromStep + PLACE_STEPS, stepCount - 1);
    const share = toStep > fromStep ? (stepIndex - fromStep) / (toStep - fromStep) : 0;
    return alongOfPlace(index) + (alongOfPlace(index + 1) - alongOfPlace(index)) * share;
  });
  return { track, alongNm };
}

const measured = (places: readonly Position[]): MeasuredTrack =>
  measureTrack({
    waypoints: (places.length === 1 ? [...places, ...places] : places).map((place) => ({
      ...place,
      name: null,
      leg: 'rhumb',
    })),
  });

/** Where a boat is at a step that is so many miles behind; negative: ahead. */
export const placeBehind = (way: DigestWay, stepIndex: number, lateNm: number): Position =>
  positionAtNm(way.track, (way.alongNm[stepIndex] ?? 0) - lateNm).position;

/** A place by the way: along it, and how far off. */
export const placeByWay = (way: DigestWay, place: Position): { alongNm: number; offNm: number } =>
  nearestOnTrack(way.track, place);
