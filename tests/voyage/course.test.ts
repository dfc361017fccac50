import { describe, expect, test } from 'vitest';
import { courseBehind, coursePoints, sailNominal } from '../../lib/voyage/index.ts';
import { littleWeather } from '../planner/little-world.ts';
import { boatAt, FIRST_EPOCH_MS, gridOf, steadyWind, trackThrough } from './sailing-world.ts';

// A degree is 60 miles; along a parallel a degree of longitude is 60 · cos(lat) miles. Worked without lib.
const COS35 = Math.cos((35 * Math.PI) / 180);

const sail = (of: { track: ReturnType<typeof trackThrough>; slots: number; fromDeg?: number; kn?: number }) =>
  sailNominal({
    boat: boatAt(of.kn ?? 6),
    sailStateId: 'full-main',
    track: of.track,
    grid: gridOf(of.slots),
    sampleReference: steadyWind(15, of.fromDeg ?? 180),
  });

describe('nominal voyage', () => {
  test('east along a parallel at six knots: a mile a slot', () => {
    const course = sail({ track: trackThrough([-35, -30], [-35, 0]), slots: 145 });
    expect(course.alongNm[144]).toBeCloseTo(144, 6);
    expect(course.lon[144]).toBeCloseTo(-30 + 144 / 60 / COS35, 6);
    expect(course.lat[144]).toBeCloseTo(-35, 9);
    expect(course.courseTowardDegTrue[144]).toBeCloseTo(90, 6);
    expect(course.lon[0]).toBe(-30);
  });

  test('north along a meridian: a degree in sixty slots', () => {
    const course = sail({ track: trackThrough([-35, -30], [10, -30]), slots: 61, fromDeg: 90 });
    expect(course.lat[60]).toBeCloseTo(-34, 9);
  });

  test('across the date line without a jump on the way', () => {
    const course = sail({ track: trackThrough([-35, 179], [-35, -170]), slots: 145 });
    const eastOf179 = (lon: number): number => (((lon - 179) % 360) + 360) % 360;
    for (let i = 0; i < 145; i++) expect(eastOf179(course.lon[i] ?? 0)).toBeCloseTo(i / 60 / COS35, 6);
    expect(course.lon[144]).toBeLessThan(0);
  });

  test('beats at 45° where the course lies closer to the wind: v · cos 45° / cos of the angle between', () => {
    const dead = sail({ track: trackThrough([-35, -30], [-35, 0]), slots: 61, fromDeg: 90 });
    expect(dead.alongNm[60]).toBeCloseTo(60 * Math.SQRT1_2, 6);
    const wide = sail({ track: trackThrough([-35, -30], [-35, 0]), slots: 61, fromDeg: 120 });
    expect(wide.alongNm[60]).toBeCloseTo((60 * Math.SQRT1_2) / Math.cos(Math.PI / 6), 6);
  });

  test('takes the next leg at a waypoint and stays at the last', () => {
    const course = sail({ track: trackThrough([-35, -30], [-34, -30], [-34, -29]), slots: 145, fromDeg: 225 });
    const cos34 = Math.cos((34 * Math.PI) / 180);
    expect(course.lat[60]).toBeCloseTo(-34, 6);
    expect(course.lon[90]).toBeCloseTo(-30 + 30 / 60 / cos34, 5);
    expect(course.alongNm[144]).toBeCloseTo(60 + 60 * cos34, 5);
    expect([course.lat[144], course.lon[144]]).toEqual([-34, -29]);
  });

  test('stays where the forecast is silent, and asks the weather at its own place and time', () => {
    const silentAfter6H = littleWeather(
      [{ windKn: (hourH) => (hourH < 6 ? 15 : Number.NaN), windFromDegTrue: () => 180, seaHeightM: () => 1 }],
      48,
    );
    const course = sailNominal({
      boat: boatAt(6),
      sailStateId: 'full-main',
      track: trackThrough([-35, -30], [-35, 0]),
      grid: gridOf(61),
      sampleReference: silentAfter6H.sampleReference,
    });
    expect(course.alongNm[36]).toBeCloseTo(36, 6);
    expect(course.alongNm[60]).toBeCloseTo(36, 6);
    const points = coursePoints(course);
    expect(points.epochMs[6]).toBe(FIRST_EPOCH_MS + 3_600_000);
    expect(points.lon[6]).toBe(course.lon[6]);
  });
});

describe('the same course some miles behind', () => {
  const track = trackThrough([-35, -30], [-35, 0]);
  const course = sail({ track, slots: 100 });

  test('is where it was that many miles earlier, and never before the start', () => {
    const behind = courseBehind(course, track, 24);
    for (let i = 24; i < 100; i++) expect(behind.lon[i]).toBeCloseTo(course.lon[i - 24] ?? 0, 9);
    for (let i = 0; i <= 24; i++) expect(behind.lon[i]).toBeCloseTo(-30, 9);
  });

  test('is the course itself when nothing was lost', () => {
    expect(courseBehind(course, track, 0)).toBe(course);
  });
});
