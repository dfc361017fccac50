import type { Boat } from '../boat/index.ts';
import { sailCourse } from '../boat/index.ts';
import type { CoursePoints, WeatherAlong } from '../forecast/index.ts';
import type { SlotGrid } from '../time/index.ts';
import { slotEpochMs } from '../time/index.ts';
import type { MeasuredTrack } from '../track/index.ts';
import { positionAtNm } from '../track/index.ts';

/** Weather of one or many scenarios wherever and whenever it is asked for. */
export type SampleWeather = (points: CoursePoints) => WeatherAlong;

/** Where the boat is at every slot instant. Arrays hold `grid.slotCount` values. */
export interface Course {
  readonly grid: SlotGrid;
  readonly lat: Float64Array;
  readonly lon: Float64Array;
  readonly courseTowardDegTrue: Float64Array;
  /** Distance sailed along the track. */
  readonly alongNm: Float64Array;
}

/** What `sailNominal` needs: one boat in one sail state on one track. */
export interface NominalVoyage {
  readonly boat: Boat;
  readonly sailStateId: string;
  readonly track: MeasuredTrack;
  readonly grid: SlotGrid;
  /** Weather the boat is assumed to meet: one scenario. */
  readonly sampleReference: SampleWeather;
}

/**
 * Sails the track without stopping for work, slot by slot: speed from the table at each slot instant, held for the slot.
 *
 * Where the forecast is silent the boat is assumed to stay; what lies there is unknown in any case.
 *
 * @returns the course from the start of the track; it ends at the last waypoint and stays there
 */
export function sailNominal(voyage: NominalVoyage): Course {
  const { grid, track } = voyage;
  const course = emptyCourse(grid);
  let alongNm = 0;
  for (let i = 0; i < grid.slotCount; i++) {
    setPlace(course, i, { track, alongNm });
    alongNm = Math.min(track.lengthNm, alongNm + speedAlongKn(voyage, course, i) * (grid.slotMin / 60));
  }
  return course;
}

/** The same course sailed `lagNm` behind: at each instant the boat is where it would have been that much earlier on the track. */
export function courseBehind(course: Course, track: MeasuredTrack, lagNm: number): Course {
  if (lagNm === 0) return course;
  const behind = emptyCourse(course.grid);
  for (let i = 0; i < course.grid.slotCount; i++) {
    setPlace(behind, i, { track, alongNm: Math.max(0, (course.alongNm[i] ?? 0) - lagNm) });
  }
  return behind;
}

/** The course as places and instants to ask the weather for. */
export function coursePoints(course: Course): CoursePoints {
  const epochMs = Float64Array.from(course.lat, (_, i) => slotEpochMs(course.grid, i));
  return { epochMs, lat: course.lat, lon: course.lon };
}

/** Part of a course, as a course of its own. */
export function sliceCourse(course: Course, span: { fromSlot: number; slotCount: number }): Course {
  const toSlot = Math.min(course.grid.slotCount, span.fromSlot + span.slotCount);
  const part = (values: Float64Array): Float64Array => values.slice(span.fromSlot, toSlot);
  return {
    grid: {
      firstEpochMs: slotEpochMs(course.grid, span.fromSlot),
      slotMin: course.grid.slotMin,
      slotCount: toSlot - span.fromSlot,
    },
    lat: part(course.lat),
    lon: part(course.lon),
    courseTowardDegTrue: part(course.courseTowardDegTrue),
    alongNm: part(course.alongNm),
  };
}

export function emptyCourse(grid: SlotGrid): Course {
  const values = (): Float64Array => new Float64Array(grid.slotCount);
  return { grid, lat: values(), lon: values(), courseTowardDegTrue: values(), alongNm: values() };
}

function setPlace(course: Course, i: number, at: { track: MeasuredTrack; alongNm: number }): void {
  const place = positionAtNm(at.track, at.alongNm);
  course.lat[i] = place.position.lat;
  course.lon[i] = place.position.lon;
  course.courseTowardDegTrue[i] = place.courseTowardDegTrue;
  course.alongNm[i] = at.alongNm;
}

function speedAlongKn(voyage: NominalVoyage, course: Course, i: number): number {
  const weather = voyage.sampleReference({
    epochMs: Float64Array.of(slotEpochMs(course.grid, i)),
    lat: course.lat.subarray(i, i + 1),
    lon: course.lon.subarray(i, i + 1),
  });
  const twsKn = weather.windKn[0] ?? Number.NaN;
  if (Number.isNaN(twsKn)) return 0;
  return sailCourse(voyage.boat, voyage.sailStateId, {
    twsKn,
    windFromDegTrue: weather.windFromDegTrue[0] ?? 0,
    courseTowardDegTrue: course.courseTowardDegTrue[i] ?? 0,
  }).alongTrackKn;
}
