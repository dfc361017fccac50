import { degFromRad, radFromDeg, wrap180Deg, wrap360Deg } from '../units/index.ts';
import { NM_PER_DEG, type Position } from './position.ts';

/** Course at the start and length of a way from one place to another. */
export interface CourseDistance {
  readonly courseTowardDegTrue: number;
  readonly distanceNm: number;
}

const radFromNm = (distanceNm: number): number => radFromDeg(distanceNm / NM_PER_DEG);
const nmFromRad = (arcRad: number): number => degFromRad(arcRad) * NM_PER_DEG;

/**
 * Great circle from one place to another: initial course and distance on the sphere.
 *
 * Haversine form, accurate for short ways too: sources.WILLIAMS_AVIATION. Between the same places, or from a pole, the course is a convention.
 */
export function greatCircle(from: Position, to: Position): CourseDistance {
  return { courseTowardDegTrue: initialCourseDegTrue(from, to), distanceNm: nmFromRad(arcBetweenRad(from, to)) };
}

/** Place reached after a distance along the great circle that starts on a course. */
export function greatCirclePoint(from: Position, way: CourseDistance): Position {
  const arcRad = radFromNm(way.distanceNm);
  const courseRad = radFromDeg(way.courseTowardDegTrue);
  const latRad = radFromDeg(from.lat);
  const sinLat = Math.sin(latRad) * Math.cos(arcRad) + Math.cos(latRad) * Math.sin(arcRad) * Math.cos(courseRad);
  const eastRad = Math.atan2(
    Math.sin(courseRad) * Math.sin(arcRad) * Math.cos(latRad),
    Math.cos(arcRad) - Math.sin(latRad) * sinLat,
  );
  return { lat: degFromRad(Math.asin(clampUnit(sinLat))), lon: wrap180Deg(from.lon + degFromRad(eastRad)) };
}

/** Place at a share of the way from one place to another, 0 to 1. Antipodal ends: along the meridian of the first. */
export function greatCircleFraction(
  ends: { readonly from: Position; readonly to: Position },
  doneShare: number,
): Position {
  const { courseTowardDegTrue, distanceNm } = greatCircle(ends.from, ends.to);
  return greatCirclePoint(ends.from, { courseTowardDegTrue, distanceNm: distanceNm * doneShare });
}

/** Latitude at which the great circle through two places crosses a meridian; null when it is a meridian itself. */
export function greatCircleLatAtLon(
  ends: { readonly from: Position; readonly to: Position },
  lon: number,
): number | null {
  const { from, to } = ends;
  const spanRad = radFromDeg(from.lon - to.lon);
  if (Math.abs(Math.sin(spanRad)) < 1e-12) return null;
  const tangent =
    (Math.tan(radFromDeg(from.lat)) * Math.sin(radFromDeg(lon - to.lon)) -
      Math.tan(radFromDeg(to.lat)) * Math.sin(radFromDeg(lon - from.lon))) /
    Math.sin(spanRad);
  return degFromRad(Math.atan(tangent));
}

/**
 * Vertex: the highest latitude of the great circle, the one that lies ahead on leaving.
 *
 * It may lie beyond the destination. Leaving due east or west the start itself is the vertex.
 */
export function greatCircleVertex(from: Position, to: Position): Position & { readonly distanceNm: number } {
  const { courseTowardDegTrue } = greatCircle(from, to);
  const courseRad = radFromDeg(courseTowardDegTrue);
  const latRad = radFromDeg(from.lat);
  const northward = Math.cos(latRad) * Math.cos(courseRad);
  // The latitude along the way is sin φ cos d + cos φ cos C sin d; it is highest where its derivative is zero.
  const arcRad =
    Math.abs(northward) < 1e-12 ? 0 : Math.atan2(Math.abs(northward), Math.sign(northward) * Math.sin(latRad));
  const distanceNm = nmFromRad(arcRad);
  return { ...greatCirclePoint(from, { courseTowardDegTrue, distanceNm }), distanceNm };
}

/**
 * Where a place lies beside the great circle through two others.
 *
 * @returns `offNm` positive to starboard, `alongNm` from the first place to the foot of the perpendicular, negative
 *   behind it
 */
export function crossTrack(
  ends: { readonly from: Position; readonly to: Position },
  place: Position,
): { offNm: number; alongNm: number } {
  const arcRad = arcBetweenRad(ends.from, place);
  const aside = radFromDeg(initialCourseDegTrue(ends.from, place) - initialCourseDegTrue(ends.from, ends.to));
  const offRad = Math.asin(clampUnit(Math.sin(arcRad) * Math.sin(aside)));
  const alongRad = Math.atan2(Math.sin(arcRad) * Math.cos(aside), Math.cos(arcRad));
  return { offNm: nmFromRad(offRad), alongNm: nmFromRad(alongRad) };
}

function arcBetweenRad(from: Position, to: Position): number {
  const halfLat = Math.sin(radFromDeg(to.lat - from.lat) / 2);
  const halfLon = Math.sin(radFromDeg(to.lon - from.lon) / 2);
  const chord = halfLat ** 2 + Math.cos(radFromDeg(from.lat)) * Math.cos(radFromDeg(to.lat)) * halfLon ** 2;
  return 2 * Math.atan2(Math.sqrt(chord), Math.sqrt(Math.max(0, 1 - chord)));
}

function initialCourseDegTrue(from: Position, to: Position): number {
  const [fromRad, toRad] = [radFromDeg(from.lat), radFromDeg(to.lat)];
  const eastRad = radFromDeg(to.lon - from.lon);
  const east = Math.sin(eastRad) * Math.cos(toRad);
  const north = Math.cos(fromRad) * Math.sin(toRad) - Math.sin(fromRad) * Math.cos(toRad) * Math.cos(eastRad);
  return wrap360Deg(degFromRad(Math.atan2(east, north)));
}

/** Rounding may lift a sine just above 1. */
const clampUnit = (sineRatio: number): number => Math.max(-1, Math.min(1, sineRatio));
