import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  crossTrack,
  greatCircle,
  greatCircleFraction,
  greatCircleLatAtLon,
  greatCirclePoint,
  greatCircleVertex,
  meridionalPartsRad,
  rhumb,
  rhumbPoint,
  unwrapLon,
  type Position,
} from '../../lib/geo/index.ts';

const DEG = Math.PI / 180;

const place = fc.record({
  lat: fc.double({ min: -85, max: 85, noNaN: true }),
  lon: fc.double({ min: -180, max: 180, noNaN: true }),
});
const course = fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true });

/** Unit vector of a place: another way to the same sphere than the formulae under test. */
const vector = ({ lat, lon }: Position): readonly [number, number, number] => [
  Math.cos(lat * DEG) * Math.cos(lon * DEG),
  Math.cos(lat * DEG) * Math.sin(lon * DEG),
  Math.sin(lat * DEG),
];

const angleNm = (one: Position, other: Position): number => {
  const [a, b] = [vector(one), vector(other)];
  const cross = [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]] as const;
  return (Math.atan2(Math.hypot(...cross), a[0] * b[0] + a[1] * b[1] + a[2] * b[2]) / DEG) * 60;
};

describe('great circle', () => {
  it('any two places: the angle between their vectors', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        expect(greatCircle(from, to).distanceNm).toBeCloseTo(angleNm(from, to), 5);
      }),
      { seed: 11 },
    );
  });

  it('any two places: sailing the distance on the initial course arrives', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        fc.pre(angleNm(from, to) < 10_700);
        expect(angleNm(greatCirclePoint(from, greatCircle(from, to)), to)).toBeLessThan(1e-4);
      }),
      { seed: 12 },
    );
  });

  it('half the way: as far from the start as from the end', () => {
    const ends = { from: { lat: -38, lon: 170 }, to: { lat: -54, lon: -72 } };
    const half = greatCircleFraction(ends, 0.5);
    expect(angleNm(ends.from, half)).toBeCloseTo(angleNm(half, ends.to), 6);
  });

  it('no distance: 0, and a course that is a number', () => {
    expect(greatCircle({ lat: 10, lon: 10 }, { lat: 10, lon: 10 })).toEqual({ courseTowardDegTrue: 0, distanceNm: 0 });
  });

  it('vertex: nowhere on the circle is higher (six examination items stand in the check values)', () => {
    const [from, to] = [
      { lat: -35, lon: 20 },
      { lat: -33, lon: 115 },
    ];
    const vertex = greatCircleVertex(from, to);
    const { courseTowardDegTrue } = greatCircle(from, to);
    for (let distanceNm = 0; distanceNm < 21_600; distanceNm += 60) {
      expect(greatCirclePoint(from, { courseTowardDegTrue, distanceNm }).lat).toBeGreaterThanOrEqual(vertex.lat - 1e-9);
    }
    expect(vertex.distanceNm).toBeGreaterThan(0);
    expect(angleNm(from, vertex)).toBeCloseTo(vertex.distanceNm, 6);
  });

  it('leaving due east: the start is the vertex', () => {
    const from = { lat: 40, lon: 0 };
    const to = greatCirclePoint(from, { courseTowardDegTrue: 90, distanceNm: 2000 });
    expect(greatCircleVertex(from, to).lat).toBeCloseTo(40, 6);
  });

  it('a meridian has no single latitude on another meridian: null', () => {
    const ends = { from: { lat: 10, lon: 20 }, to: { lat: 50, lon: 20 } };
    expect(greatCircleLatAtLon(ends, 30)).toBeNull();
  });

  it('latitude on a meridian between: on the circle', () => {
    const ends = { from: { lat: 10, lon: 170 }, to: { lat: 40, lon: -150 } };
    const lat = greatCircleLatAtLon(ends, 180) ?? NaN;
    expect(Math.abs(crossTrack(ends, { lat, lon: 180 }).offNm)).toBeLessThan(1e-6);
  });
});

describe('crossTrack', () => {
  it('to port of the way: negative; behind the start: negative along', () => {
    const ends = { from: { lat: 0, lon: 0 }, to: { lat: 0, lon: 10 } };
    expect(crossTrack(ends, { lat: 1, lon: 5 })).toMatchObject({ offNm: expect.closeTo(-60, 9) as number });
    expect(crossTrack(ends, { lat: -1, lon: 5 }).offNm).toBeCloseTo(60, 9);
    expect(crossTrack(ends, { lat: 0, lon: -2 }).alongNm).toBeCloseTo(-120, 9);
  });
});

describe('rhumb line', () => {
  it('any place, course and distance: what comes back is what was sailed', () => {
    fc.assert(
      fc.property(
        place,
        course,
        fc.double({ min: 1, max: 600, noNaN: true }),
        (from, courseTowardDegTrue, distanceNm) => {
          const to = rhumbPoint(from, { courseTowardDegTrue, distanceNm });
          fc.pre(Math.abs(to.lat) < 89);
          const back = rhumb(from, to);
          expect(back.distanceNm).toBeCloseTo(distanceNm, 4);
          expect(Math.cos((back.courseTowardDegTrue - courseTowardDegTrue) * DEG)).toBeCloseTo(1, 9);
        },
      ),
      { seed: 13 },
    );
  });

  it('sailed in small steps of great circle on one course: the same place within 0.1 nm in 1000', () => {
    const from = { lat: -45, lon: 175 };
    const way = { courseTowardDegTrue: 60, distanceNm: 1000 };
    let at: Position = from;
    // A step of 0.1 nm turns off its course by a few thousandths of a degree: 0.01 nm over the whole way.
    for (let i = 0; i < 10_000; i++) at = greatCirclePoint(at, { courseTowardDegTrue: 60, distanceNm: 0.1 });
    expect(angleNm(rhumbPoint(from, way), at)).toBeLessThan(0.1);
  });

  it('meridional parts at 30° and 60°: 1888.4 and 4527.4 minutes (sphere, ln tan(45° + φ/2))', () => {
    for (const latDeg of [30, 60, -45]) {
      const byTable = (Math.log(Math.tan((45 + latDeg / 2) * DEG)) * 10_800) / Math.PI;
      expect((meridionalPartsRad(latDeg) * 10_800) / Math.PI).toBeCloseTo(byTable, 6);
    }
    expect((meridionalPartsRad(30) * 10_800) / Math.PI).toBeCloseTo(1888.4, 1);
    expect((meridionalPartsRad(60) * 10_800) / Math.PI).toBeCloseTo(4527.4, 1);
  });

  it('across the date line: the short way, east or west', () => {
    const east = rhumb({ lat: 0, lon: 179 }, { lat: 0, lon: -179 });
    expect(east.courseTowardDegTrue).toBeCloseTo(90, 9);
    expect(east.distanceNm).toBeCloseTo(120, 9);
    const west = rhumb({ lat: -40, lon: -179 }, { lat: -40, lon: 179 });
    expect(west.courseTowardDegTrue).toBeCloseTo(270, 9);
    expect(rhumbPoint({ lat: 0, lon: 179 }, { courseTowardDegTrue: 90, distanceNm: 120 }).lon).toBeCloseTo(-179, 9);
  });

  it('along a parallel and a hair off it: one and the same distance', () => {
    const along = rhumb({ lat: 50, lon: 0 }, { lat: 50, lon: 5 }).distanceNm;
    expect(along).toBeCloseTo(300 * Math.cos(50 * DEG), 9);
    for (const offDeg of [1e-11, 1e-9, 1e-8, 1e-7, 1e-6]) {
      expect(rhumb({ lat: 50, lon: 0 }, { lat: 50 + offDeg, lon: 5 }).distanceNm).toBeCloseTo(along, 3);
    }
  });

  it('beyond the pole: ends there', () => {
    expect(rhumbPoint({ lat: 89, lon: 10 }, { courseTowardDegTrue: 0, distanceNm: 200 })).toEqual({ lat: 90, lon: 10 });
    expect(rhumb({ lat: 89, lon: 10 }, { lat: 90, lon: 10 }).distanceNm).toBeCloseTo(60, 9);
  });

  it('never shorter than the great circle', () => {
    fc.assert(
      fc.property(place, place, (from, to) => {
        expect(rhumb(from, to).distanceNm).toBeGreaterThanOrEqual(greatCircle(from, to).distanceNm - 1e-6);
      }),
      { seed: 14 },
    );
  });
});

describe('unwrapLon', () => {
  it('a longitude across the date line: beyond 180, next to the other', () => {
    expect(unwrapLon(-179, { lat: 0, lon: 178 })).toBe(181);
    expect(unwrapLon(179, { lat: 0, lon: -178 })).toBe(-181);
    expect(unwrapLon(10, { lat: 0, lon: 12 })).toBe(10);
  });
});
