import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { greatCircle, rhumb, rhumbPoint, type Position } from '../../lib/geo/index.ts';
import {
  measureTrack,
  nearestOnTrack,
  positionAtNm,
  trackLengthNm,
  type LegKind,
  type Track,
} from '../../lib/track/index.ts';

const trackOf = (...points: readonly (readonly [number, number, LegKind?])[]): Track => ({
  waypoints: points.map(([lat, lon, leg = 'rhumb']) => ({ lat, lon, leg, name: null })),
});

/** Three legs, one a great circle, across the date line. */
const pacific = trackOf([-36, 174], [-45, -175], [-55, -120, 'great-circle'], [-56, -68]);

const distanceNm = (one: Position, other: Position): number => greatCircle(one, other).distanceNm;

describe('measureTrack', () => {
  it('rhumb and great-circle legs: their lengths added up', () => {
    const [a, b, c, d] = pacific.waypoints;
    if (!a || !b || !c || !d) throw new Error('four waypoints');
    const lengthNm = rhumb(a, b).distanceNm + greatCircle(b, c).distanceNm + rhumb(c, d).distanceNm;
    expect(trackLengthNm(pacific)).toBeCloseTo(lengthNm, 9);
    expect(measureTrack(pacific).waypointAlongNm).toHaveLength(4);
  });

  it('Aviation Formulary V1.47, Los Angeles to New York: 2144 nm by great circle, 2164.6 by rhumb line', () => {
    const [from, to] = [
      [33.95, -118.4],
      [40.63333, -73.78333],
    ] as const;
    expect(trackLengthNm(trackOf(from, [...to, 'great-circle']))).toBeCloseTo(2144, 0);
    expect(trackLengthNm(trackOf(from, to))).toBeCloseTo(2164.6, 1);
  });

  it('one waypoint: our mistake, thrown', () => {
    expect(() => measureTrack(trackOf([0, 0]))).toThrow('two waypoints');
  });
});

describe('positionAtNm', () => {
  const measured = measureTrack(pacific);

  it('at each waypoint: the waypoint, and the course of the leg that leaves it', () => {
    for (const [index, waypoint] of pacific.waypoints.entries()) {
      const at = positionAtNm(measured, measured.waypointAlongNm[index] ?? NaN);
      expect(distanceNm(at.position, waypoint)).toBeLessThan(1e-6);
    }
    for (const leg of measured.legs) {
      expect(positionAtNm(measured, leg.startNm).courseTowardDegTrue).toBeCloseTo(leg.courseTowardDegTrue, 6);
    }
  });

  it('before the start and beyond the end: the ends', () => {
    expect(positionAtNm(measured, -10)).toMatchObject({ position: { lat: -36, lon: 174 }, legIndex: 0 });
    expect(distanceNm(positionAtNm(measured, 1e6).position, { lat: -56, lon: -68 })).toBeLessThan(1e-6);
    expect(positionAtNm(measured, 1e6).legIndex).toBe(2);
  });

  it('on a rhumb leg: what sailing its course from the start reaches', () => {
    const [first] = measured.legs;
    if (!first) throw new Error('a leg');
    for (const alongNm of [1, 100, 300, 600]) {
      const sailed = rhumbPoint(first.from, { courseTowardDegTrue: first.courseTowardDegTrue, distanceNm: alongNm });
      expect(distanceNm(positionAtNm(measured, alongNm).position, sailed)).toBeLessThan(1e-6);
    }
  });

  it('along the whole track: a mile more is a mile further, on the course given, without a jump at the date line', () => {
    for (let alongNm = 0; alongNm < measured.lengthNm - 1; alongNm += 7) {
      const [here, ahead] = [positionAtNm(measured, alongNm), positionAtNm(measured, alongNm + 0.5)];
      if (here.legIndex !== ahead.legIndex) continue;
      const way = rhumb(here.position, ahead.position);
      expect(way.distanceNm).toBeCloseTo(0.5, 4);
      expect(Math.cos(((way.courseTowardDegTrue - here.courseTowardDegTrue) * Math.PI) / 180)).toBeGreaterThan(0.99999);
      expect(Math.abs(here.position.lon)).toBeLessThanOrEqual(180);
    }
  });

  it('a waypoint twice: the leg without length is passed over', () => {
    const doubled = measureTrack(trackOf([0, 0], [0, 1], [0, 1], [1, 1]));
    expect(positionAtNm(doubled, 60).courseTowardDegTrue).toBeCloseTo(0, 9);
    expect(positionAtNm(doubled, 90).position.lat).toBeCloseTo(0.5, 9);
    expect(positionAtNm(measureTrack(trackOf([0, 0], [0, 0], [0, 1])), 0).courseTowardDegTrue).toBeCloseTo(90, 9);
    expect(positionAtNm(measureTrack(trackOf([0, 0], [0, 1], [0, 1])), 60).courseTowardDegTrue).toBeCloseTo(90, 9);
  });
});

describe('nearestOnTrack', () => {
  const measured = measureTrack(pacific);

  it('a place on the track: itself', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: measured.lengthNm, noNaN: true }), (alongNm) => {
        const nearest = nearestOnTrack(measured, positionAtNm(measured, alongNm).position);
        expect(nearest.alongNm).toBeCloseTo(alongNm, 2);
        expect(Math.abs(nearest.offNm)).toBeLessThan(0.01);
      }),
      { seed: 31 },
    );
  });

  it('a place abeam: its distance off, positive to starboard, negative to port', () => {
    for (const alongNm of [200, 1500, 3200]) {
      const at = positionAtNm(measured, alongNm);
      for (const [side, sign] of [
        [90, 1],
        [-90, -1],
      ] as const) {
        const abeam = rhumbPoint(at.position, { courseTowardDegTrue: at.courseTowardDegTrue + side, distanceNm: 12 });
        const nearest = nearestOnTrack(measured, abeam);
        expect(nearest.offNm).toBeCloseTo(12 * sign, 1);
        expect(Math.abs(nearest.alongNm - alongNm)).toBeLessThan(0.2);
      }
    }
  });

  it('short of the start, past the end: the ends', () => {
    expect(nearestOnTrack(measured, { lat: -30, lon: 170 }).alongNm).toBe(0);
    expect(nearestOnTrack(measured, { lat: -56, lon: -60 }).alongNm).toBeCloseTo(measured.lengthNm, 6);
  });

  it('any place: no place of a fine search along the track is nearer', () => {
    const near = fc.record({
      lat: fc.double({ min: -60, max: -30, noNaN: true }),
      lon: fc.oneof(fc.double({ min: 165, max: 180, noNaN: true }), fc.double({ min: -180, max: -60, noNaN: true })),
    });
    fc.assert(
      fc.property(near, (place) => {
        const found = Math.abs(nearestOnTrack(measured, place).offNm);
        for (let alongNm = 0; alongNm <= measured.lengthNm; alongNm += 20) {
          expect(distanceNm(positionAtNm(measured, alongNm).position, place)).toBeGreaterThan(found - 0.01);
        }
      }),
      { seed: 32, numRuns: 40 },
    );
  });
});
