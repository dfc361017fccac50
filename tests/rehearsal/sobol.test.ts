import { describe, expect, test } from 'vitest';
import { SOBOL_DIMENSION_COUNT, sobolPoints } from '../../lib/rehearsal/index.ts';
import { golden } from './golden.ts';

const { points, wide } = golden('rehearsal/sobol-points') as { points: number[][]; wide: number[][] };

/** Rows of points, as the golden file has them. */
const rows = (columns: readonly Float64Array[]): number[][] =>
  Array.from(columns[0] ?? [], (_, i) => columns.map((column) => column[i] ?? Number.NaN));

describe('sobolPoints, as the sequence stands', () => {
  test('eight points in three dimensions: those of the table', () => {
    expect(rows(sobolPoints({ pointCount: 8, dimensionCount: 3, seed: null }))).toEqual(points);
  });

  test('16 points in all 48 dimensions: those of SciPy', () => {
    expect(SOBOL_DIMENSION_COUNT).toBe(48);
    expect(rows(sobolPoints({ pointCount: 16, dimensionCount: 48, seed: null }))).toEqual(wide);
  });

  test('a dimension without direction numbers: throws', () => {
    expect(() => sobolPoints({ pointCount: 2, dimensionCount: 49, seed: null })).toThrow('48 dimensions');
  });
});

describe('sobolPoints, scrambled', () => {
  const scrambled = (seed: number): readonly Float64Array[] =>
    sobolPoints({ pointCount: 256, dimensionCount: 48, seed });

  test('every dimension has one of 256 points in each of 256 strata', () => {
    for (const column of scrambled(5)) {
      const strata = Array.from(column, (value) => Math.floor(value * 256)).toSorted((a, b) => a - b);
      expect(strata).toEqual(Array.from({ length: 256 }, (_, index) => index));
    }
  });

  test('the first two dimensions stay a net: one point in every box of 1/256, whatever its sides', () => {
    // Owen, "Randomly permuted (t, m, s)-nets" (1995): nested scrambling keeps a (0, m, 2)-net one.
    const [first = new Float64Array(), second = new Float64Array()] = scrambled(7);
    for (let power = 0; power <= 8; power++) {
      const boxes = new Set(
        Array.from(
          first,
          (x, i) => Math.floor(x * 2 ** power) * 2 ** (8 - power) + Math.floor((second[i] ?? 0) * 2 ** (8 - power)),
        ),
      );
      expect(boxes.size).toBe(256);
    }
  });

  test('the same seed: the same points; another seed: others', () => {
    expect(scrambled(5)).toEqual(scrambled(5));
    expect(scrambled(5)).not.toEqual(scrambled(6));
  });

  test('over many seeds one point is uniform: mean 1/2 and variance 1/12 within four standard errors', () => {
    const values = Array.from(
      { length: 2000 },
      (_, seed) => sobolPoints({ pointCount: 4, dimensionCount: 2, seed })[1]?.[3] ?? 0,
    );
    const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
    const variance = values.reduce((sum, value) => sum + (value - mean) ** 2, 0) / values.length;
    expect(Math.abs(mean - 1 / 2)).toBeLessThan(4 * Math.sqrt(1 / 12 / 2000));
    // Variance of the sample variance of a uniform: (1/80 - 1/144) / n.
    expect(Math.abs(variance - 1 / 12)).toBeLessThan(4 * Math.sqrt((1 / 80 - 1 / 144) / 2000));
  });
});
