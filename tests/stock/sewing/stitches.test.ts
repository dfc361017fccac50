import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  lockCount,
  needleCount,
  needlefulCount,
  piercesPerInchCount,
  stitchCount,
  stitchRate,
  threadRatio,
  twineM,
} from '../../../lib/stock/index.ts';

const tough = (lengthM: number, rowCount: number) => ({ lengthM, rowCount, cloth: 'tough-laminate' });
const plain = (pitchMm: number, widthMm: number) => ({ pitchMm, widthMm, thicknessMm: 0 });
const RUNS = { seed: 62, numRuns: 200 };

describe('stitchCount (arithmetic: length over pitch)', () => {
  it('0.9 m in two rows at 5 mm: 360', () => {
    expect(stitchCount(tough(0.9, 2))).toBe(360);
  });

  it('an hour at 0.30 m in 5 mm stitches: sixty, one a minute', () => {
    expect(stitchCount(tough(stitchRate('tough-laminate').likelyMPerH, 1))).toBe(60);
  });

  it('a length that is no whole number of stitches: the next', () => {
    expect(stitchCount(tough(0.103, 1), 5)).toBe(21);
    expect(stitchCount(tough(0.1, 3), 8)).toBe(38);
  });

  // Common practice, no source.
  it('locks: one each 100 mm of every row, and at its end', () => {
    expect(lockCount(tough(0.9, 2))).toBe(18);
    expect(lockCount(tough(0.25, 1))).toBe(3);
  });
});

describe('twineM (thread by the geometry of the stitch; doubled, ends 15 %: common practice, no source)', () => {
  it('0.9 m in two rows: 24.8 m', () => {
    expect(twineM(tough(0.9, 2))).toBeCloseTo(24.84, 9);
  });

  it.each([
    [0.5, 7],
    [1, 14],
    [2, 28],
    [3, 41],
  ])('%d m in one row: %d m, to a metre', (lengthM, twine) => {
    expect(Math.abs(twineM(tough(lengthM, 1)) - twine)).toBeLessThanOrEqual(0.5);
  });

  it('15 mm wide at 5 mm pitch in thin cloth: 6.3 times the row; 6 without a geometry', () => {
    expect(threadRatio(plain(5, 15))).toBeCloseTo(6.3246, 4);
    expect(threadRatio()).toBe(6);
  });

  it('pitch 4 … 8 and width 10 … 20 mm: 3.2 to 10.2 times the row', () => {
    const ratios = [4, 5, 8].flatMap((pitchMm) => [10, 15, 20].map((widthMm) => threadRatio(plain(pitchMm, widthMm))));
    expect(Math.min(...ratios)).toBeCloseTo(3.2, 1);
    expect(Math.max(...ratios)).toBeCloseTo(10.2, 1);
  });

  it('cloth 2 mm thick at 5 mm pitch: two passes of 2 mm more each stitch', () => {
    expect(threadRatio({ ...plain(5, 15), thicknessMm: 2 }) - threadRatio(plain(5, 15))).toBeCloseTo(4 / 5, 12);
  });

  it('single: half of doubled', () => {
    expect(twineM(tough(1, 1), null, 'single') * 2).toBeCloseTo(twineM(tough(1, 1)), 12);
  });

  it('a longer seam, a wider stitch, one row more: more twine', () => {
    const figure = fc.double({ min: 1, max: 20, noNaN: true });
    fc.assert(
      fc.property(figure, figure, figure, (lengthM, pitchMm, widthMm) => {
        const base = twineM(tough(lengthM, 1), plain(pitchMm, widthMm));
        expect(twineM(tough(lengthM * 1.01, 1), plain(pitchMm, widthMm))).toBeGreaterThan(base);
        expect(twineM(tough(lengthM, 1), plain(pitchMm, widthMm * 1.01))).toBeGreaterThan(base);
        expect(twineM(tough(lengthM, 2), plain(pitchMm, widthMm))).toBeCloseTo(2 * base, 9);
      }),
      RUNS,
    );
  });
});

describe('needles (common practice, no source; an arm’s length: web magazine on boat building, 2007)', () => {
  it('a metre in one row: 6.7, so seven needlefuls, and at least four needles', () => {
    expect(needlefulCount(tough(1, 1))).toBe(7);
    expect(needleCount(tough(1, 1))).toBe(4);
  });

  it('two metres in two rows: six needles, one each 0.7 m', () => {
    expect(needleCount(tough(2, 2))).toBe(6);
  });

  it('needlefuls hold the doubled twine without its ends', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 30, noNaN: true }), (lengthM) => {
        const seam = tough(lengthM, 2);
        const count = needlefulCount(seam);
        expect(count * 0.9 * 2).toBeGreaterThanOrEqual(twineM(seam) / 1.15 - 1e-6);
        expect((count - 1) * 0.9 * 2).toBeLessThan(twineM(seam) / 1.15);
      }),
      RUNS,
    );
  });
});

// A sailmaker's instructions for a machine seam of three rows, web log of November 2014: 25 to 35 points per inch.
describe('piercesPerInchCount', () => {
  it('three hand rows at 5 mm: within what a machine seam of three rows has; one row: far below', () => {
    expect(piercesPerInchCount(3)).toBeGreaterThan(25);
    expect(piercesPerInchCount(3)).toBeLessThan(35);
    expect(piercesPerInchCount(3)).toBeCloseTo(30.5, 1);
    expect(piercesPerInchCount(1)).toBeCloseTo(10.2, 1);
  });
});
