import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  fullMask,
  hasBit,
  intersect,
  isSubset,
  maskWordCount,
  setOfTable,
  weightOf,
  weightOfBoth,
} from '../../lib/windows/index.ts';

// Against sets of numbers, the plain way.

const SEED = { seed: 20260601, numRuns: 300 };

const world = fc.integer({ min: 1, max: 130 }).chain((count) =>
  fc.record({
    count: fc.constant(count),
    a: fc.uniqueArray(fc.integer({ min: 0, max: count - 1 })),
    b: fc.uniqueArray(fc.integer({ min: 0, max: count - 1 })),
    weights: fc.array(fc.integer({ min: 0, max: 20_000 }), { minLength: count, maxLength: count }),
  }),
);

function maskOf(count: number, members: readonly number[]): Uint32Array {
  const mask = new Uint32Array(Math.ceil(count / 32));
  for (const w of members) mask[Math.floor(w / 32)] = (mask[Math.floor(w / 32)] ?? 0) + 2 ** (w % 32);
  return mask;
}

const membersOf = (count: number, mask: Uint32Array): number[] =>
  Array.from({ length: count }, (_, w) => w).filter((w) => hasBit(mask, w));
const sumOf = (weights: readonly number[], members: Iterable<number>): number =>
  [...members].reduce((sum, w) => sum + (weights[w] ?? 0), 0);

describe('sets of scenarios', () => {
  test('hold what was put in, and all of it when full', () => {
    fc.assert(
      fc.property(world, ({ count, a }) => {
        expect(membersOf(count, maskOf(count, a))).toEqual(a.toSorted((one, other) => one - other));
        expect(membersOf(count, fullMask(count))).toHaveLength(count);
        expect(fullMask(count)).toHaveLength(maskWordCount(count));
      }),
      SEED,
    );
  });

  test('meet, weigh and contain as sets of numbers do', () => {
    fc.assert(
      fc.property(world, ({ count, a, b, weights }) => {
        const both = a.filter((w) => b.includes(w));
        const [maskA, maskB] = [maskOf(count, a), maskOf(count, b)];
        const weighed = Int32Array.from(weights);
        expect(intersect(maskA, maskB)).toEqual(maskOf(count, both));
        expect(weightOf(maskA, weighed)).toBe(sumOf(weights, a));
        expect(weightOfBoth(maskA, maskB, { wordOffsetIndex: 0, weights: weighed })).toBe(sumOf(weights, both));
        expect(isSubset(maskA, maskB)).toBe(a.every((w) => b.includes(w)));
      }),
      SEED,
    );
  });

  test('read from a table at the place of their slot', () => {
    fc.assert(
      fc.property(world, ({ count, a, b, weights }) => {
        const words = maskWordCount(count);
        const masks = Uint32Array.of(...maskOf(count, b), ...maskOf(count, a));
        expect(setOfTable({ masks, wordCount: words }, 1)).toEqual(maskOf(count, a));
        const weighed = Int32Array.from(weights);
        expect(weightOfBoth(fullMask(count), masks, { wordOffsetIndex: words, weights: weighed })).toBe(
          sumOf(weights, a),
        );
        expect(intersect(fullMask(count), masks, words)).toEqual(maskOf(count, a));
      }),
      SEED,
    );
  });
});
