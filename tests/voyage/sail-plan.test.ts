import { describe, expect, test } from 'vitest';
import type { SlotSailing } from '../../lib/voyage/index.ts';
import { sailNominal, sailPlan, toGoNm } from '../../lib/voyage/index.ts';
import { boatAt, gridOf, handling, steadyWind, trackThrough } from './sailing-world.ts';

// On the sphere, by flat triangles over a few dozen miles or by the haversine formula; nothing of lib/geo.
const RAD = Math.PI / 180;

function distanceNm(from: { lat: number; lon: number }, to: { lat: number; lon: number }): number {
  const half =
    Math.sin(((to.lat - from.lat) * RAD) / 2) ** 2 +
    Math.cos(from.lat * RAD) * Math.cos(to.lat * RAD) * Math.sin(((to.lon - from.lon) * RAD) / 2) ** 2;
  return (2 * Math.asin(Math.sqrt(half)) * 60) / RAD;
}

const held: SlotSailing = { handling: null, sailStateId: 'full-main' };
const track = trackThrough([-35, -30], [-35, -20]);
const SLOTS = 600;

const sail = (sailingAt: (slot: number) => SlotSailing, fromDegTrue = 180, along = track) =>
  sailPlan({
    boat: boatAt(6),
    track: along,
    grid: gridOf(SLOTS),
    sampleReference: steadyWind(15, fromDegTrue),
    sailingAt,
  });

const at = (course: ReturnType<typeof sail>, slot: number) => ({
  lat: course.lat[slot] ?? 0,
  lon: course.lon[slot] ?? 0,
});

describe('a plan sailed with true positions', () => {
  test('without work is the nominal voyage', () => {
    const nominal = sailNominal({
      boat: boatAt(6),
      sailStateId: 'full-main',
      track,
      grid: gridOf(SLOTS),
      sampleReference: steadyWind(15, 180),
    });
    const course = sail(() => held);
    for (let i = 0; i < SLOTS; i += 50) {
      expect(course.lon[i]).toBeCloseTo(nominal.lon[i] ?? 0, 9);
      expect(course.lat[i]).toBeCloseTo(-35, 9);
    }
  });

  test('runs off where the wind takes her: 36 miles in six hours, 10° east of north', () => {
    const course = sail((slot) => (slot < 36 ? { handling: handling('run-off'), sailStateId: 'full-main' } : held));
    const before = at(course, 0);
    const after = at(course, 36);
    expect(distanceNm(before, after)).toBeCloseTo(36, 2);
    expect((after.lat - before.lat) * 60).toBeCloseTo(36 * Math.cos(10 * RAD), 2);
    expect(after.lon).toBeGreaterThan(before.lon);
    expect((after.lon - before.lon) * 60 * Math.cos(34.7 * RAD)).toBeCloseTo(36 * Math.sin(10 * RAD), 1);
  });

  test('then steers for the next waypoint and gets nearer by all she sails', () => {
    const course = sail((slot) => (slot < 36 ? { handling: handling('run-off'), sailStateId: 'full-main' } : held));
    const end = { lat: -35, lon: -20 };
    const leftNm = [36, 96, 156, 216].map((slot) => distanceNm(at(course, slot), end));
    for (let k = 1; k < leftNm.length; k++) expect((leftNm[k - 1] ?? 0) - (leftNm[k] ?? 0)).toBeCloseTo(60, 0);
    // The wind is abeam or free all the way: the whole is no longer than both sides of the triangle.
    expect((leftNm[0] ?? 0) - distanceNm({ lat: -35, lon: -30 }, end)).toBeLessThan(36);
  });

  test('passes a waypoint by that is close ahead, and arrives at the last one and stays there', () => {
    const short = trackThrough([-35, -30], [-35, -29], [-35, -20]);
    const course = sail(
      (slot) => (slot < 12 ? { handling: handling('run-off'), sailStateId: 'full-main' } : held),
      180,
      short,
    );
    const near = Array.from({ length: SLOTS }, (_, i) => distanceNm(at(course, i), { lat: -35, lon: -29 }));
    expect(Math.min(...near)).toBeLessThan(10);
    // Twelve miles off to begin with, at most those lost on the way: there within the hours the track takes and two more.
    const lengthSlots = Math.ceil(600 * Math.cos(35 * RAD)) + 12;
    expect(distanceNm(at(course, lengthSlots), { lat: -35, lon: -20 })).toBeLessThan(0.01);
    expect(distanceNm(at(course, SLOTS - 1), { lat: -35, lon: -20 })).toBeLessThan(0.01);
  });

  test('hove to across the date line drifts on without a jump', () => {
    const along = trackThrough([-35, 179.9], [-35, -170]);
    const course = sail(
      (slot) => (slot < 60 ? { handling: handling('heave-to'), sailStateId: 'full-main' } : held),
      270,
      along,
    );
    for (let i = 1; i < 300; i++) expect(distanceNm(at(course, i - 1), at(course, i))).toBeLessThan(1.01);
    expect(course.lon[299]).toBeLessThan(0);
  });

  test('under a handling that holds the course she stays on the track', () => {
    const course = sail((slot) =>
      slot < 60 ? { handling: handling('hold-course'), sailStateId: 'headsail-only' } : held,
    );
    expect(course.lat[60]).toBeCloseTo(-35, 9);
    expect(course.alongNm[60]).toBeCloseTo(30, 6);
    expect(course.alongNm[120]).toBeCloseTo(90, 6);
  });

  test('where the forecast is silent she stays', () => {
    const silent = sailPlan({
      boat: boatAt(6),
      track,
      grid: gridOf(50),
      sampleReference: steadyWind(Number.NaN, 180),
      sailingAt: () => held,
    });
    expect(silent.lon[49]).toBe(-30);
  });
});

describe('miles still to go', () => {
  test('along the track while on it', () => {
    const course = sail(() => held);
    const lengthNm = 600 * Math.cos(35 * RAD);
    expect(toGoNm(course, track, 0)).toBeCloseTo(lengthNm, 2);
    expect(toGoNm(course, track, 120)).toBeCloseTo(lengthNm - 120, 2);
  });

  test('straight to the next waypoint from off the track', () => {
    const course = sail((slot) => (slot < 36 ? { handling: handling('run-off'), sailStateId: 'full-main' } : held));
    // A rhumb line of some 480 miles differs from the great circle by less than half a mile here.
    expect(Math.abs(toGoNm(course, track, 36) - distanceNm(at(course, 36), { lat: -35, lon: -20 }))).toBeLessThan(0.6);
  });
});
