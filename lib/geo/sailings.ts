/** The sailings worked by hand, for checking by hand. sources.BOWDITCH_2024. */
import { degFromRad, radFromDeg, wrap180Deg, wrap360Deg } from '../units/index.ts';
import type { CourseDistance } from './great-circle.ts';
import { NM_PER_DEG, type Position } from './position.ts';

/** Northing and easting (departure) [nm], negative to the south and west. */
export interface Run {
  readonly northNm: number;
  readonly eastNm: number;
}

/** Distance [nm] run at a steady speed. Bowditch Vol. II, Table 11. */
export function distanceRunNm(sailed: { readonly speedKn: number; readonly durationMin: number }): number {
  return (sailed.speedKn * sailed.durationMin) / 60;
}

/** Plane sailing: the run of a course and distance. */
export function planeRun(way: CourseDistance): Run {
  const courseRad = radFromDeg(way.courseTowardDegTrue);
  return { northNm: way.distanceNm * Math.cos(courseRad), eastNm: way.distanceNm * Math.sin(courseRad) };
}

/** Plane sailing, inverse: course and distance of a run. */
export function planeCourse(run: Run): CourseDistance {
  return {
    courseTowardDegTrue: wrap360Deg(degFromRad(Math.atan2(run.eastNm, run.northNm))),
    distanceNm: Math.hypot(run.northNm, run.eastNm),
  };
}

/** Traverse sailing: the run of several courses and distances together. */
export function traverseRun(ways: readonly CourseDistance[]): Run {
  return ways
    .map(planeRun)
    .reduce((sum, run) => ({ northNm: sum.northNm + run.northNm, eastNm: sum.eastNm + run.eastNm }), {
      northNm: 0,
      eastNm: 0,
    });
}

/** Parallel sailing: departure [nm] of a difference of longitude [°] at a latitude. */
export function departureNm(along: { readonly latDeg: number; readonly dLonDeg: number }): number {
  return along.dLonDeg * NM_PER_DEG * Math.cos(radFromDeg(along.latDeg));
}

/** Parallel sailing, inverse: difference of longitude [°] of a departure at a latitude short of the pole. */
export function dLonDegOf(along: { readonly latDeg: number; readonly eastNm: number }): number {
  return along.eastNm / NM_PER_DEG / Math.cos(radFromDeg(along.latDeg));
}

/** Mid-latitude sailing: place reached on a course and distance. */
export function midLatitudePoint(from: Position, way: CourseDistance): Position {
  const run = planeRun(way);
  const lat = from.lat + run.northNm / NM_PER_DEG;
  const dLonDeg = dLonDegOf({ latDeg: (from.lat + lat) / 2, eastNm: run.eastNm });
  return { lat, lon: wrap180Deg(from.lon + dLonDeg) };
}

/** Mid-latitude sailing, inverse: course and distance. */
export function midLatitudeCourse(from: Position, to: Position): CourseDistance {
  const dLonDeg = wrap180Deg(to.lon - from.lon);
  const eastNm = departureNm({ latDeg: (from.lat + to.lat) / 2, dLonDeg });
  return planeCourse({ northNm: (to.lat - from.lat) * NM_PER_DEG, eastNm });
}
