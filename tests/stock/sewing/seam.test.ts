import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  needleMinutes,
  ownStitchRate,
  rateMinutes,
  SEAM_FINISH,
  SEAM_SET_UP,
  STITCH_RATES,
  stitchRate,
} from '../../../lib/stock/index.ts';

const FOOT_M = 0.3048; // International yard and pound agreement (1959).
const tough = (lengthM: number, rowCount: number) => ({ lengthM, rowCount, cloth: 'tough-laminate' });
const RUNS = { seed: 61, numRuns: 200 };
const length = fc.double({ min: 0.05, max: 50, noNaN: true });
const rows = fc.integer({ min: 1, max: 9 });

describe('needleMinutes (common practice, no source)', () => {
  it('36 feet in tough laminate at the likely 0.30 m an hour: 36.6 hours with the needle', () => {
    expect(needleMinutes(tough(36 * FOOT_M, 1)).likelyMin / 60).toBeCloseTo(36.576, 6);
  });

  it('36 feet at an own rate of a foot an hour: 36.0 hours', () => {
    const rate = ownStitchRate('tough-laminate', FOOT_M);
    expect(needleMinutes(tough(36 * FOOT_M, 1), rate).likelyMin / 60).toBeCloseTo(36, 9);
  });

  it('an own rate: slow and fast keep the proportion of the cloth', () => {
    const rate = ownStitchRate('woven-heavy', 1.2);
    expect(rate.slowMPerH).toBeCloseTo(0.8, 12);
    expect(rate.fastMPerH).toBeCloseTo(1.8, 12);
  });

  it('0.9 m in two rows: six hours', () => {
    expect(needleMinutes(tough(0.9, 2)).likelyMin).toBeCloseTo(360, 9);
  });

  it.each([
    [0.5, 1.7],
    [1, 3.3],
    [2, 6.7],
    [3, 10],
  ])('%d m in one row at 0.30: %d hours, to a tenth', (lengthM, likelyH) => {
    expect(Math.abs(needleMinutes(tough(lengthM, 1)).likelyMin / 60 - likelyH)).toBeLessThanOrEqual(0.05);
  });

  // Told in a web log of 2013: 3.7 m in a day of sewing by two pairs, here eight hours; glued first, two to six layers.
  it('3.7 m sewn in a day by two pairs: 0.23 m an hour for each, between slow and likely', () => {
    const pairMPerH = 3.7 / 2 / 8;
    const { slowMPerH, likelyMPerH } = stitchRate('tough-laminate');
    expect(pairMPerH).toBeGreaterThan(slowMPerH);
    expect(pairMPerH).toBeLessThan(likelyMPerH);
  });

  it.each(STITCH_RATES)('$cloth: least, likely and most minutes rise', ({ cloth }) => {
    const minutes = needleMinutes({ lengthM: 1, rowCount: 1, cloth });
    expect(minutes.leastMin).toBeLessThan(minutes.likelyMin);
    expect(minutes.likelyMin).toBeLessThan(minutes.mostMin);
  });

  it('a longer seam, one row more: more minutes; the same metres to sew: the same minutes', () => {
    fc.assert(
      fc.property(length, rows, (lengthM, rowCount) => {
        const { likelyMin } = needleMinutes(tough(lengthM, rowCount));
        expect(needleMinutes(tough(lengthM * 1.01, rowCount)).likelyMin).toBeGreaterThan(likelyMin);
        expect(needleMinutes(tough(lengthM, rowCount + 1)).likelyMin).toBeGreaterThan(likelyMin);
        expect(needleMinutes(tough(lengthM * rowCount, 1)).likelyMin).toBeCloseTo(likelyMin, 6);
      }),
      RUNS,
    );
  });

  it('a cloth without a rate: our mistake', () => {
    expect(() => stitchRate('velvet')).toThrow('velvet');
  });
});

describe('STITCH_RATES (common practice, no source)', () => {
  it.each([
    ['tough-laminate', [0.2, 0.3, 0.45], [1.6, 2]],
    ['drilled-laminate', [0.3, 0.45, 0.6], [1.4, 1.8]],
    ['woven-heavy', [0.4, 0.6, 0.9], [1.2, 1.6]],
    ['woven-light', [0.7, 1, 1.5], [1, 1.3]],
    ['spinnaker-nylon', [1.2, 2, 3], [0.8, 1]],
    ['old-holes', [0.5, 0.8, 1.2], [1.2, 1.6]],
    ['webbing', [0.15, 0.25, 0.4], [2, 2]],
  ])('%s: metres an hour and needle', (cloth, rates, needles) => {
    const rate = stitchRate(cloth);
    expect([rate.slowMPerH, rate.likelyMPerH, rate.fastMPerH]).toEqual(rates);
    expect([rate.needleLeastMm, rate.needleMostMm]).toEqual(needles);
  });

  it('every cloth is in the list above', () => {
    expect(STITCH_RATES).toHaveLength(7);
  });

  it('set-up and finishing: 15/28/50 and 8/14/25 minutes', () => {
    expect(Object.values(SEAM_SET_UP)).toEqual([15, 28, 50]);
    expect(Object.values(SEAM_FINISH)).toEqual([8, 14, 25]);
  });
});

describe('rateMinutes (arithmetic: set-up + 60 amount / rate)', () => {
  const legs = { amount: 3, unit: 'm', slowPerH: 1, likelyPerH: 2, fastPerH: 4, setUpMin: 10 };

  it('3 m at 1, 2 and 4 m an hour after ten minutes: 55, 100 and 190 minutes', () => {
    expect(rateMinutes(legs)).toEqual({ leastMin: 55, likelyMin: 100, mostMin: 190 });
  });

  it('nothing to do: the set-up', () => {
    expect(rateMinutes({ ...legs, amount: 0 })).toEqual({ leastMin: 10, likelyMin: 10, mostMin: 10 });
  });

  it.each([
    ['a rate of nothing', { slowPerH: 0 }],
    ['rates out of order', { fastPerH: 1.5 }],
    ['an amount below nothing', { amount: -1 }],
    ['an amount that is no number', { amount: Number.NaN }],
  ])('%s: our mistake', (_, wrong) => {
    expect(() => rateMinutes({ ...legs, ...wrong })).toThrow(/rates must rise|below nothing/);
  });
});
