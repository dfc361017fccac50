import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  apparentWind,
  barbSide,
  estimatedGustKn,
  gustFactorRatio,
  trueWind,
  velocityToward,
  windBarb,
  windComponents,
  windFeltBy,
  windHeightRatio,
  windOverWater,
} from '../../lib/weather/index.ts';

const angle = fc.double({ min: -180, max: 180, noNaN: true });
const speed = fc.double({ min: 0.5, max: 60, noNaN: true });

describe('apparent and true wind', () => {
  it('any sailing: true wind from the apparent one is the true wind again', () => {
    fc.assert(
      fc.property(speed, angle, speed, (twsKn, twaDeg, boatSpeedKn) => {
        const { awsKn, awaDeg } = apparentWind({ twsKn, twaDeg, boatSpeedKn });
        const back = trueWind({ awsKn, awaDeg, boatSpeedKn, headingTowardDegTrue: 77 });
        expect(back.windKn).toBeCloseTo(twsKn, 9);
        expect(Math.cos(((back.twaDeg - twaDeg) * Math.PI) / 180)).toBeCloseTo(1, 9);
      }),
      { seed: 1 },
    );
  });

  it('any sailing: the vector sum gives the same speed as the cosine rule', () => {
    fc.assert(
      fc.property(speed, angle, speed, (twsKn, twaDeg, boatSpeedKn) => {
        const { awsKn } = apparentWind({ twsKn, twaDeg, boatSpeedKn });
        const felt = windFeltBy(
          { windKn: twsKn, windFromDegTrue: 30 + twaDeg },
          velocityToward({ speedKn: boatSpeedKn, towardDegTrue: 30 }),
        );
        expect(felt.windKn).toBeCloseTo(awsKn, 9);
      }),
      { seed: 2 },
    );
  });

  it('running as fast as the wind: no wind and an angle that is a number', () => {
    expect(apparentWind({ twsKn: 8, twaDeg: 180, boatSpeedKn: 8 })).toEqual({ awsKn: 0, awaDeg: 0 });
  });

  it('wind from port: the angle is negative, the cross wind too', () => {
    expect(apparentWind({ twsKn: 10, twaDeg: -90, boatSpeedKn: 5 }).awaDeg).toBeLessThan(0);
    expect(windComponents({ windKn: 10, windFromDegTrue: 270 }, 0).crossKn).toBeCloseTo(-10, 9);
  });

  it('a current setting with the wind: the water feels that much less of it', () => {
    const over = windOverWater({ windKn: 15, windFromDegTrue: 270 }, velocityToward({ speedKn: 3, towardDegTrue: 90 }));
    expect(over.windKn).toBeCloseTo(12, 9);
    expect(over.windFromDegTrue).toBeCloseTo(270, 9);
  });
});

describe('wind profile', () => {
  it('at 10 m: the forecast wind itself; at the surface none', () => {
    expect(windHeightRatio({ heightM: 10 })).toBe(1);
    expect(windHeightRatio({ heightM: 0 })).toBe(0);
  });

  it('exponent 1/7 of coastal practice at 2 m: 0.795 (power law, computed by hand)', () => {
    expect(windHeightRatio({ heightM: 2, exponentRatio: 1 / 7 })).toBeCloseTo(0.7946, 4);
  });
});

describe('gusts', () => {
  it('a gust missing in light air: 3 kn more; in a breeze 1.3 times the mean', () => {
    expect(estimatedGustKn(4)).toBe(7);
    expect(estimatedGustKn(10)).toBe(13);
    expect(estimatedGustKn(20)).toBe(26);
  });

  it('a row the table lacks: null, not a guess', () => {
    expect(gustFactorRatio({ exposure: 'at-sea', gustS: 3, meanS: 3600 })).toBeNull();
  });

  it('WMO/TD-No. 1555 Table 1.1, in-land rows: as printed', () => {
    expect(gustFactorRatio({ exposure: 'in-land', gustS: 3, meanS: 600 })).toBe(1.66);
    expect(gustFactorRatio({ exposure: 'in-land', gustS: 3, meanS: 3600 })).toBe(1.75);
    expect(gustFactorRatio({ exposure: 'in-land', gustS: 3, meanS: 60 })).toBe(1.49);
  });
});

describe('wind barbs', () => {
  it('any wind: the feathers add up to the wind within 2.5 kn', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 150, noNaN: true }), (windKn) => {
        const barb = windBarb(windKn);
        const shownKn = 50 * barb.pennantCount + 10 * barb.fullCount + 5 * barb.halfCount;
        expect(Math.abs(shownKn - windKn)).toBeLessThanOrEqual(2.5);
        expect(barb.fullCount).toBeLessThan(5);
        expect(barb.halfCount).toBeLessThan(2);
        expect(barb.calm).toBe(shownKn === 0);
      }),
      { seed: 3 },
    );
  });

  it('south of the equator: the feathers change sides', () => {
    expect(barbSide(40)).toBe('left');
    expect(barbSide(-40)).toBe('right');
  });
});
