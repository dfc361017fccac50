import { describe, expect, it } from 'vitest';
import {
  needleCount,
  needlefulCount,
  needleMinutes,
  patchAreaM2,
  STITCH_RATES,
  stitchCount,
  stitchRate,
  twineM,
} from '../../lib/stock/index.ts';

const FOOT_M = 0.3048;
const tough = (lengthM: number, rowCount: number) => ({ lengthM, rowCount, cloth: 'tough-laminate' });

describe('needleMinutes (common practice, no source)', () => {
  it('36 feet in tough laminate at the likely 0.30 m an hour: 36.6 hours with the needle', () => {
    expect(needleMinutes(tough(36 * FOOT_M, 1)).likelyMin / 60).toBeCloseTo(36.576, 6);
  });

  it('36 feet at "a foot an hour": 36 hours; the rate is within 2 % of it', () => {
    expect(stitchRate('tough-laminate').likelyMPerH / FOOT_M).toBeCloseTo(1, 1);
  });

  it('0.9 m in two rows: six hours', () => {
    expect(needleMinutes(tough(0.9, 2)).likelyMin).toBeCloseTo(360, 9);
  });

  it.each(STITCH_RATES)('$cloth: least, likely and most minutes rise', ({ cloth }) => {
    const minutes = needleMinutes({ lengthM: 1, rowCount: 1, cloth });
    expect(minutes.leastMin).toBeLessThan(minutes.likelyMin);
    expect(minutes.likelyMin).toBeLessThan(minutes.mostMin);
  });

  it('a cloth without a rate: our mistake', () => {
    expect(() => stitchRate('velvet')).toThrow('velvet');
  });
});

describe('stitches, twine and needles (arithmetic on common practice)', () => {
  it('0.9 m in two rows at 5 mm: 360 stitches, 24.84 m of twine', () => {
    expect(stitchCount(tough(0.9, 2))).toBe(360);
    expect(twineM(tough(0.9, 2))).toBeCloseTo(0.9 * 2 * 12 * 1.15, 9);
  });

  it('stitches 15 mm wide at 5 mm pitch in thin cloth: 6.3 times the seam in single thread', () => {
    const geometry = { pitchMm: 5, widthMm: 15, thicknessMm: 0 };
    expect(twineM(tough(1, 1), geometry) / 2 / 1.15).toBeCloseTo(6.3246, 4);
  });

  it('a metre in one row: seven needlefuls and at least four needles', () => {
    expect(needlefulCount(tough(1, 1))).toBe(7);
    expect(needleCount(tough(1, 1))).toBe(4);
    expect(needleCount(tough(2, 2))).toBe(6);
  });
});

describe('patchAreaM2 (area of the rounded table of the trade notes, both sides of a 20 mm slit)', () => {
  it.each([
    [0.3, 0.05, 0.1],
    [0.3, 0.1, 0.22],
    [1, 0.05, 0.26],
    [1, 0.1, 0.53],
    [2, 0.05, 0.5],
    [2, 0.1, 0.97],
    [3, 0.05, 0.74],
    [3, 0.1, 1.41],
  ])('slit %d m, overlap %d m: %d m²', (tearLengthM, overlapM, areaM2) => {
    const area = patchAreaM2({ tearLengthM, tearWidthM: 0.02, overlapM, sideCount: 2, layersPerSideCount: 1 });
    expect(area).toBeCloseTo(areaM2, 1);
    expect(Math.abs(area - areaM2)).toBeLessThan(0.006);
  });
});
