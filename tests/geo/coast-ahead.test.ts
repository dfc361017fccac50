import { describe, expect, it } from 'vitest';
import { coastAheadNm, coastlineOf } from '../../lib/geo/index.ts';

/** A square island, four degrees wide, around a place. */
const island = (lat: number, lon: number): { lat: number; lon: number }[] =>
  [
    [-2, -2],
    [2, -2],
    [2, 2],
    [-2, 2],
    [-2, -2],
  ].map(([dLat = 0, dLon = 0]) => ({ lat: lat + dLat, lon: lon + dLon }));

// A minute of a great circle is a nautical mile: along the equator and along a meridian the degrees themselves tell.
describe('coastAheadNm', () => {
  it.each([
    ['east along the equator', { lat: 0, lon: 0 }, 90, 8 * 60],
    ['from the other side', { lat: 0, lon: 20 }, 270, 8 * 60],
    ['up a meridian', { lat: -10, lon: 10 }, 0, 8 * 60],
    ['down a meridian', { lat: 15, lon: 10 }, 180, 13 * 60],
  ] as const)('%s: the degrees between', (_, from, towardDegTrue, distanceNm) => {
    const found = coastAheadNm(coastlineOf([island(0, 10)]), { from, towardDegTrue, withinNm: 1000 });
    // A side of the island bulges 0.04 nm: great circles, not parallels.
    expect(Math.abs((found ?? NaN) - distanceNm)).toBeLessThan(0.1);
  });

  it('land behind, beside, or beyond the look: null', () => {
    const coast = coastlineOf([island(0, 10)]);
    expect(coastAheadNm(coast, { from: { lat: 0, lon: 0 }, towardDegTrue: 270, withinNm: 1000 })).toBeNull();
    expect(coastAheadNm(coast, { from: { lat: 0, lon: 0 }, towardDegTrue: 60, withinNm: 1000 })).toBeNull();
    expect(coastAheadNm(coast, { from: { lat: 0, lon: 0 }, towardDegTrue: 90, withinNm: 479 })).toBeNull();
  });

  it('over the date line: as anywhere', () => {
    const coast = coastlineOf([island(0, 180).map(({ lat, lon }) => ({ lat, lon: lon > 180 ? lon - 360 : lon }))]);
    expect(coastAheadNm(coast, { from: { lat: 0, lon: -170 }, towardDegTrue: 270, withinNm: 1000 })).toBeCloseTo(
      480,
      6,
    );
  });

  it('two lines: no coast between the end of one and the start of the next', () => {
    const coast = coastlineOf([
      [
        { lat: -5, lon: 9 },
        { lat: -4, lon: 9 },
      ],
      [
        { lat: 4, lon: 9 },
        { lat: 5, lon: 9 },
      ],
    ]);
    expect(coastAheadNm(coast, { from: { lat: 0, lon: 0 }, towardDegTrue: 90, withinNm: 2000 })).toBeNull();
  });
});
