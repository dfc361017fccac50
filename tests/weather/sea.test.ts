import { describe, expect, it } from 'vitest';
import {
  beaufort,
  BEAUFORT_SCALE,
  beaufortSpeedMps,
  encounterPeriodByCircularS,
  encounterPeriodS,
  exceedanceProbability,
  highestExpectedWaveM,
  meanOfHighestRatio,
  rayleighHeightM,
  seaState,
} from '../../lib/weather/index.ts';
import { mpsFromKn } from '../../lib/units/index.ts';

describe('seaState (WMO-No. 306, Code Table 3700)', () => {
  it.each([
    [0.1, 1, 'calm (rippled)'],
    [0.5, 2, 'smooth'],
    [1.25, 3, 'slight'],
    [2.5, 4, 'moderate'],
    [4, 5, 'rough'],
    [6, 6, 'very rough'],
    [9, 7, 'high'],
    [14, 8, 'very high'],
    [14.1, 9, 'phenomenal'],
  ])('%s m, on the bound: the lower code %i, %s', (seaHeightM, stateCode, name) => {
    expect(seaState(seaHeightM)).toMatchObject({ stateCode, name });
  });
});

describe('beaufort', () => {
  it('every whole knot from 0 to 70: between the limits of its force', () => {
    for (let windKn = 0; windKn <= 70; windKn++) {
      const { forceNumber, leastKn } = beaufort(windKn);
      expect(leastKn).toBeLessThanOrEqual(windKn);
      expect(BEAUFORT_SCALE[forceNumber + 1]?.leastKn ?? Infinity).toBeGreaterThan(windKn);
    }
  });

  it('less than a knot: calm; halfway between two forces: the nearest knot decides', () => {
    expect(beaufort(0.9).forceNumber).toBe(0);
    expect(beaufort(6.4).forceNumber).toBe(2);
    expect(beaufort(6.6).forceNumber).toBe(3);
  });

  it('v = 0.836 B^1.5: inside its own band or within 0.15 m/s of it', () => {
    for (const { forceNumber, leastKn } of BEAUFORT_SCALE) {
      const nextKn = BEAUFORT_SCALE[forceNumber + 1]?.leastKn ?? Infinity;
      expect(beaufortSpeedMps(forceNumber)).toBeGreaterThan(mpsFromKn(leastKn - 0.5) - 0.15);
      expect(beaufortSpeedMps(forceNumber)).toBeLessThan(mpsFromKn(nextKn) + 0.15);
    }
  });
});

describe('meeting the waves', () => {
  it('keeping up with the waves, overtaking them: null', () => {
    expect(encounterPeriodS({ wavePeriodS: 4, boatSpeedKn: 15, fromAsternDeg: 0 })).toBeNull();
    expect(encounterPeriodByCircularS({ wavePeriodS: 4, boatSpeedKn: 13, fromAheadDeg: 180 })).toBeNull();
  });

  it('IMO circular against dispersion: within 0.7 % (3 kn/s for 3.03)', () => {
    for (const fromAheadDeg of [0, 45, 90, 135, 180]) {
      const meeting = { wavePeriodS: 9, boatSpeedKn: 7 };
      const rounded = encounterPeriodByCircularS({ ...meeting, fromAheadDeg }) ?? NaN;
      const exact = encounterPeriodS({ ...meeting, fromAsternDeg: 180 - fromAheadDeg }) ?? NaN;
      expect(Math.abs(rounded / exact - 1)).toBeLessThan(0.007);
    }
  });
});

describe('wave heights (Rayleigh)', () => {
  it('the height one wave in N exceeds: exceeded with probability 1/N', () => {
    for (const oneInCount of [2, 10, 100, 1000]) {
      const heightM = rayleighHeightM({ seaHeightM: 2.4, oneInCount });
      expect(exceedanceProbability({ heightM, seaHeightM: 2.4 })).toBeCloseTo(1 / oneInCount, 12);
    }
  });

  it('the mean of the highest third: the significant height itself, within 0.1 % (Longuet-Higgins 1952: 1.0008)', () => {
    expect(meanOfHighestRatio(1 / 3)).toBeCloseTo(1.0008, 3);
  });

  it('an hour of 6 s waves, 600 of them: 1.79 Hs; a single wave: Hs at least', () => {
    expect(highestExpectedWaveM({ seaHeightM: 1, wavePeriodS: 6, durationMin: 60 })).toBeCloseTo(1.788, 3);
    expect(highestExpectedWaveM({ seaHeightM: 2, wavePeriodS: 10, durationMin: 0.1 })).toBe(2);
  });
});
