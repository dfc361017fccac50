import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { windOnBoard } from '../../lib/boat/index.ts';
import { trueWindOf } from '../../lib/log/index.ts';
import { velocityToward } from '../../lib/weather/index.ts';

// Worked triangles with their sources stand in the golden file: manoeuvring-board example of NGA Pub. 217, a 30-60-90
// triangle, US Coast Guard examination items; profile factors of Hsu, Meindl & Gilhousen 1994.

const golden = z
  .object({
    items: z.array(
      z.object({
        id: z.string(),
        topic: z.string(),
        inputs: z.unknown(),
        expected: z.unknown(),
        tolerance: z.unknown(),
      }),
    ),
  })
  .parse(
    JSON.parse(readFileSync(new URL('../golden/check-values/weather-and-navigation.json', import.meta.url), 'utf8')),
  );
const triangle = z.object({
  id: z.string(),
  inputs: z.object({ headingDeg: z.number(), speedKn: z.number(), apparentRelDeg: z.number(), apparentKn: z.number() }),
  expected: z.object({ trueFromDeg: z.number(), trueKn: z.number() }),
  tolerance: z.object({ deg: z.number(), kn: z.number() }),
});
const triangles = golden.items
  .filter(({ topic }) => topic === 'true-wind-from-apparent')
  .map((item) => triangle.parse(item));

const apparent = (of: { headingDeg: number; speedKn: number; apparentRelDeg: number; apparentKn: number }) => ({
  kind: 'apparent' as const,
  speedKn: of.apparentKn,
  angleDeg: of.apparentRelDeg,
  headingDegTrue: of.headingDeg,
  boatSpeedKn: of.speedKn,
});

describe('the true wind of an observation', () => {
  test('there are worked triangles to hold it against', () => expect(triangles.length).toBeGreaterThanOrEqual(4));

  test.each(triangles)('triangle $id: speed and direction', ({ inputs, expected, tolerance }) => {
    const found = trueWindOf({ wind: apparent(inputs) }, { instrumentHeightM: 10 });
    expect(Math.abs((found?.windKn ?? NaN) - expected.trueKn)).toBeLessThanOrEqual(tolerance.kn);
    expect(Math.abs((found?.windFromDegTrue ?? NaN) - expected.trueFromDeg)).toBeLessThanOrEqual(tolerance.deg);
    expect(found?.isFromApparent).toBe(true);
  });

  test.each([
    [20, 1.079],
    [5, 0.927],
    [25, 1.106],
  ])(
    'an instrument %d m up shows %d times the wind of 10 m (profile of Hsu et al. 1994)',
    (instrumentHeightM, factor) => {
      const wind = { kind: 'true' as const, speedKn: 10 * factor, fromDegTrue: 360 };
      const found = trueWindOf({ wind, gustKn: 15 * factor }, { instrumentHeightM });
      expect(found?.windKn).toBeCloseTo(10, 1);
      expect(found?.gustKn).toBeCloseTo(15, 1);
      expect(found?.windFromDegTrue).toBe(0);
    },
  );

  test('any wind as it is felt at the instrument comes back as it was at 10 m', () => {
    const inputs = fc.record({
      windKn: fc.double({ min: 0.5, max: 60, noNaN: true }),
      windFromDegTrue: fc.double({ min: 0, max: 359.9, noNaN: true }),
      headingDeg: fc.double({ min: 0, max: 360, noNaN: true }),
      speedKn: fc.double({ min: 0, max: 15, noNaN: true }),
      heightM: fc.double({ min: 3, max: 40, noNaN: true }),
    });
    fc.assert(
      fc.property(inputs, ({ windKn, windFromDegTrue, headingDeg, speedKn, heightM }) => {
        const velocity = velocityToward({ speedKn, towardDegTrue: headingDeg });
        const felt = windOnBoard({ windKn, windFromDegTrue }, { heightM, velocity });
        const angleDeg = ((felt.windFromDegTrue - headingDeg + 540) % 360) - 180;
        const wind = apparent({ headingDeg, speedKn, apparentRelDeg: angleDeg, apparentKn: felt.windKn });
        const found = trueWindOf({ wind }, { instrumentHeightM: heightM });
        expect(found?.windKn).toBeCloseTo(windKn, 6);
        const offDeg = Math.abs((((found?.windFromDegTrue ?? NaN) - windFromDegTrue + 540) % 360) - 180);
        expect(offDeg).toBeLessThan(1e-4);
      }),
      { seed: 7, numRuns: 300 },
    );
  });

  test('an angle above 180 is one to port', () => {
    const of = { headingDeg: 20, speedKn: 6, apparentKn: 14 };
    const height = { instrumentHeightM: 15 };
    expect(trueWindOf({ wind: apparent({ ...of, apparentRelDeg: 300 }) }, height)).toEqual(
      trueWindOf({ wind: apparent({ ...of, apparentRelDeg: -60 }) }, height),
    );
  });

  test('calm air felt as head wind of her own speed: no wind and no direction', () => {
    const wind = apparent({ headingDeg: 77, speedKn: 5, apparentRelDeg: 0, apparentKn: 5 });
    expect(trueWindOf({ wind }, { instrumentHeightM: 15 })).toMatchObject({ windFromDegTrue: null });
  });

  test('no wind observed: none, though there is a gust', () => {
    expect(trueWindOf({ gustKn: 20 }, { instrumentHeightM: 15 })).toBeNull();
  });
});
