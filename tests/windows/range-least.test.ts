import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { rangeLeast } from '../../lib/windows/range-least.ts';

// Against a plain search for the first least value of the range.

const values = fc.array(fc.constantFrom(-3, 0, 0.5, 2, Infinity), { minLength: 1, maxLength: 40 });

describe('least value of a range', () => {
  test('is the first least one, for every range of any row', () => {
    fc.assert(
      fc.property(values, (drawn) => {
        const least = rangeLeast(Float64Array.from(drawn));
        for (let from = 0; from < drawn.length; from++) {
          for (let to = from; to < drawn.length; to++) {
            const part = drawn.slice(from, to + 1);
            expect(least(from, to)).toBe(from + part.indexOf(Math.min(...part)));
          }
        }
      }),
      { seed: 20260612, numRuns: 40 },
    );
  });

  test('a range that reaches past the row ends with it', () => {
    expect(rangeLeast(Float64Array.of(3, 1, 2))(1, 9)).toBe(1);
    expect(rangeLeast(Float64Array.of(3, 1, 2))(2, 2)).toBe(2);
  });
});
