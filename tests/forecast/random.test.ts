import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { inverseNormal } from '../../lib/forecast/inverse-normal.ts';
import { shuffledIndices, stratifiedNormals } from '../../lib/forecast/random.ts';

describe('inverseNormal', () => {
  // Test values of M. J. Wichura (1988), Algorithm AS 241, Applied Statistics 37:477-484, and of common tables.
  it.each([
    [0.25, -0.6744897501960817],
    [0.001, -3.090232306167814],
    [1e-20, -9.2623400897984],
    [0.975, 1.959963984540054],
    [0.5, 0],
  ])('probability %d: within 2e-9 of it, relatively', (probability, expected) => {
    expect(Math.abs(inverseNormal(probability) - expected)).toBeLessThanOrEqual(2e-9 * Math.max(1, Math.abs(expected)));
  });

  it.each([0, 1, Number.NaN])('probability %d: our own mistake', (probability) => {
    expect(() => inverseNormal(probability)).toThrow();
  });
});

const keys = fc.record({
  seed: fc.integer(),
  purpose: fc.constantFrom('planning', 'reporting'),
  variable: fc.string(),
});

describe('stratifiedNormals', () => {
  it('any key and count: mean 0, variance 1, one draw from every stratum', () => {
    fc.assert(
      fc.property(keys, fc.integer({ min: 2, max: 300 }), (key, count) => {
        const draws = stratifiedNormals(count, key);
        const mean = draws.reduce((sum, z) => sum + z, 0) / count;
        const variance = draws.reduce((sum, z) => sum + z * z, 0) / count;
        expect(Math.abs(mean)).toBeLessThan(1e-9);
        expect(Math.abs(variance - 1)).toBeLessThan(1e-9);
        expect(new Set(draws).size).toBe(count);
      }),
      { seed: 7, numRuns: 50 },
    );
  });

  it('another variable of the same seed: uncorrelated', () => {
    const drawsOf = (variable: string) => stratifiedNormals(1024, { seed: 1, purpose: 'planning', variable });
    const sea = drawsOf('sea');
    const correlation = drawsOf('wind').reduce((sum, z, i) => sum + z * (sea[i] ?? 0), 0) / 1024;
    // Three standard errors of a correlation of 1 024 pairs.
    expect(Math.abs(correlation)).toBeLessThan(3 / 32);
  });
});

describe('shuffledIndices', () => {
  it('any key: every index once, the same for the same key', () => {
    fc.assert(
      fc.property(keys, fc.integer({ min: 1, max: 200 }), (key, count) => {
        const order = shuffledIndices(count, key);
        expect(order.toSorted((a, b) => a - b)).toEqual(Array.from({ length: count }, (_, i) => i));
        expect(shuffledIndices(count, key)).toEqual(order);
      }),
      { seed: 8, numRuns: 50 },
    );
  });

  it('seeds next to each other: every place equally likely', () => {
    const firsts = Array.from(
      { length: 3000 },
      (_, seed) => shuffledIndices(3, { seed, purpose: 'p', variable: 'v' })[0],
    );
    for (const index of [0, 1, 2]) {
      // 1 000 expected, standard deviation 26.
      expect(Math.abs(firsts.filter((first) => first === index).length - 1000)).toBeLessThan(4 * 26);
    }
  });
});
