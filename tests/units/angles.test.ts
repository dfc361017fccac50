import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { radFromDeg, uvFromWind, windFromUv, wrap180Deg, wrap360Deg } from '../../lib/units/index.ts';

const anAngleDeg = fc.double({ min: -1e5, max: 1e5, noNaN: true });

describe('wrap360Deg and wrap180Deg', () => {
  it.each([
    [0, 0, 0],
    [360, 0, 0],
    [-1, 359, -1],
    [180, 180, -180],
    [-180, 180, -180],
    [540, 180, -180],
    [359.5, 359.5, -0.5],
    [-720.25, 359.75, -0.25],
  ])('%d degrees: %d in [0, 360), %d in [-180, 180)', (angleDeg, in360, in180) => {
    expect(wrap360Deg(angleDeg)).toBe(in360);
    expect(wrap180Deg(angleDeg)).toBe(in180);
  });

  it('the smallest negative angle: stays below 360', () => {
    expect(wrap360Deg(-Number.MIN_VALUE)).toBeLessThan(360);
    expect(wrap180Deg(-180 - Number.EPSILON)).toBeLessThan(180);
  });

  it('any angle: in range, and the same direction', () => {
    fc.assert(
      fc.property(anAngleDeg, (angleDeg) => {
        const [in360, in180] = [wrap360Deg(angleDeg), wrap180Deg(angleDeg)];
        expect(in360).toBeGreaterThanOrEqual(0);
        expect(in360).toBeLessThan(360);
        expect(in180).toBeGreaterThanOrEqual(-180);
        expect(in180).toBeLessThan(180);
        // A direction is the same when its sine and cosine are; 1e5 degrees carry a rounding of 1.5e-11 degrees.
        for (const wrapped of [in360, in180]) {
          expect(Math.abs(Math.sin(radFromDeg(wrapped)) - Math.sin(radFromDeg(angleDeg)))).toBeLessThan(1e-11);
          expect(Math.abs(Math.cos(radFromDeg(wrapped)) - Math.cos(radFromDeg(angleDeg)))).toBeLessThan(1e-11);
        }
      }),
      { seed: 360 },
    );
  });
});

describe('wind from and to components', () => {
  // WMO-No. 306, FM 92 GRIB, code table 4.2, discipline 0 category 2: direction (number 0) is that from which the wind
  // blows; u (2) is positive toward east, v (3) toward north.
  it.each([
    ['north', 0, -10, 0],
    ['east', -10, 0, 90],
    ['south', 0, 10, 180],
    ['west', 10, 0, 270],
    ['south-west', 10, 10, 225],
    ['north-west', 10, -10, 315],
  ])('wind out of the %s (u %d, v %d): from %d', (_name, u, v, fromDegTrue) => {
    const wind = windFromUv(u, v);
    expect(Math.abs(wind.fromDegTrue - fromDegTrue)).toBeLessThan(1e-12);
    expect(wind.speed).toBe(Math.hypot(u, v));
  });

  it('any wind: speed and direction come back from its components', () => {
    const aWind = fc.record({
      speed: fc.double({ min: 0.01, max: 150, noNaN: true }),
      fromDegTrue: fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true }),
    });
    fc.assert(
      fc.property(aWind, (wind) => {
        const { u, v } = uvFromWind(wind);
        const back = windFromUv(u, v);
        expect(Math.abs(back.speed - wind.speed)).toBeLessThan(1e-12 * wind.speed + 1e-14);
        expect(Math.abs(wrap180Deg(back.fromDegTrue - wind.fromDegTrue))).toBeLessThan(1e-11);
      }),
      { seed: 2026 },
    );
  });
});
