import { degFromRad, radFromDeg, wrap180Deg, wrap360Deg } from '../units/index.ts';
import type { CourseDistance } from './great-circle.ts';
import { NM_PER_DEG, type Position } from './position.ts';

/** Below this change of latitude [rad] (6 m) the way counts as one along a parallel. */
const PARALLEL_RAD = 1e-9;

/** Meridional parts [rad] of a latitude on the sphere: distance from the equator on the Mercator chart. */
export function meridionalPartsRad(latDeg: number): number {
  return Math.asinh(Math.tan(radFromDeg(latDeg)));
}

/**
 * Rhumb line from one place to another, the shorter way round: its course and distance on the sphere.
 *
 * Mercator sailing; exactly 180° apart it goes west. To a pole it runs along the meridian.
 */
export function rhumb(from: Position, to: Position): CourseDistance {
  const northRad = radFromDeg(to.lat - from.lat);
  const eastRad = radFromDeg(wrap180Deg(to.lon - from.lon));
  const partsRad = meridionalPartsRad(to.lat) - meridionalPartsRad(from.lat);
  const distanceRad = Math.hypot(northRad, stretchRatio(from, { northRad, partsRad }) * eastRad);
  const courseRad = Math.abs(northRad) < PARALLEL_RAD ? Math.atan2(eastRad, 0) : Math.atan2(eastRad, partsRad);
  return {
    courseTowardDegTrue: distanceRad === 0 ? 0 : wrap360Deg(degFromRad(courseRad)),
    distanceNm: degFromRad(distanceRad) * NM_PER_DEG,
  };
}

/** Place reached after a distance on a steady course. A rhumb line ends at the pole: so does the way. */
export function rhumbPoint(from: Position, way: CourseDistance): Position {
  const courseRad = radFromDeg(way.courseTowardDegTrue);
  const distanceRad = radFromDeg(way.distanceNm / NM_PER_DEG);
  const latDeg = from.lat + degFromRad(distanceRad * Math.cos(courseRad));
  if (Math.abs(latDeg) >= 90) return { lat: Math.sign(latDeg) * 90, lon: from.lon };
  const northRad = radFromDeg(latDeg - from.lat);
  const partsRad = meridionalPartsRad(latDeg) - meridionalPartsRad(from.lat);
  const eastRad = (distanceRad * Math.sin(courseRad)) / stretchRatio(from, { northRad, partsRad });
  return { lat: latDeg, lon: wrap180Deg(from.lon + degFromRad(eastRad)) };
}

/** Miles of departure per minute of longitude along the way: dφ/dψ, on a parallel cos φ. */
function stretchRatio(from: Position, way: { readonly northRad: number; readonly partsRad: number }): number {
  if (Math.abs(way.northRad) < PARALLEL_RAD) return Math.cos(radFromDeg(from.lat) + way.northRad / 2);
  return way.northRad / way.partsRad;
}
