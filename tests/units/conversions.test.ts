import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { cFromK, degFromRad, hpaFromPa, knFromMps, mpsFromKn, radFromDeg } from '../../lib/units/index.ts';
import si from '../golden/units/si.json' with { type: 'json' };

/** The golden figures are written to ten digits. */
const TOLERANCE = 5e-10;

const expectWithin = (found: number, wanted: number, tolerance: number): void => {
  expect(Math.abs(found - wanted), `${found} against ${wanted}`).toBeLessThanOrEqual(tolerance);
};

describe('conversions against the SI Brochure', () => {
  it.each(si.speeds)('$speedKn kn: $speedMps m/s, both ways', ({ speedKn, speedMps }) => {
    expectWithin(mpsFromKn(speedKn), speedMps, TOLERANCE);
    expectWithin(knFromMps(speedMps), speedKn, TOLERANCE);
  });

  it.each(si.temperatures)('$temperatureK K: $temperatureC °C', ({ temperatureK, temperatureC }) => {
    expectWithin(cFromK(temperatureK), temperatureC, TOLERANCE);
  });

  it.each(si.pressures)('$pressurePa Pa: $pressureHpa hPa', ({ pressurePa, pressureHpa }) => {
    expectWithin(hpaFromPa(pressurePa), pressureHpa, TOLERANCE);
  });

  it.each(si.angles)('$angleDeg degrees: $angleRad rad, both ways', ({ angleDeg, angleRad }) => {
    expectWithin(radFromDeg(angleDeg), angleRad, TOLERANCE);
    // Ten digits of a radian are 6e-9 of a degree.
    expectWithin(degFromRad(angleRad), angleDeg, 6e-9);
  });

  it('any speed and angle: there and back changes nothing beyond rounding', () => {
    fc.assert(
      fc.property(fc.double({ min: -1e6, max: 1e6, noNaN: true }), (value) => {
        // Four roundings of a double; the smallest numbers have fewer digits.
        const relative = Math.abs(value) * 4 * Number.EPSILON + 1e-300;
        return (
          Math.abs(knFromMps(mpsFromKn(value)) - value) <= relative &&
          Math.abs(degFromRad(radFromDeg(value)) - value) <= relative
        );
      }),
      { seed: 1852 },
    );
  });
});
