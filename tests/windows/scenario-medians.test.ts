import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { quantileAt, scenarioMedians, scenarioQuantiles } from '../../lib/windows/index.ts';

const SEED = 20_260_527;

const column = (values: readonly number[], weights: readonly number[]) => ({
  values: Float32Array.from(values),
  shape: { scenarioCount: values.length, pointCount: 1, weights: Int32Array.from(weights) },
});

const quantile = (values: readonly number[], weights: readonly number[], quantileProbability: number): number => {
  const { values: laid, shape } = column(values, weights);
  return quantileAt(laid, shape, { i: 0, quantileProbability });
};

// Hyndman & Fan, The American Statistician 50 (1996): definition 2, the inverse of the distribution, averaged at its steps.
describe('quantileAt', () => {
  it('equal weights: the median as everyone knows it', () => {
    expect(quantile([9, 1, 5], [1, 1, 1], 0.5)).toBe(5);
    expect(quantile([9, 1, 5, 7], [1, 1, 1, 1], 0.5)).toBe(6);
  });

  it('weights that are whole numbers of one million: as good as equal', () => {
    expect(quantile([3, 1, 2, 8, 6, 7], [166_670, 166_666, 166_666, 166_666, 166_666, 166_666], 0.5)).toBe(4.5);
  });

  it('a heavy scenario: the median goes to it', () => {
    expect(quantile([1, 2, 10], [1, 1, 5], 0.5)).toBe(10);
    expect(quantile([6, 10, 10], [2, 1, 1], 0.5)).toBe(8);
  });

  it('unknown scenarios: left out, with their weight', () => {
    expect(quantile([Number.NaN, 2, 4, Number.NaN], [50, 1, 1, 1], 0.5)).toBe(3);
    expect(quantile([Number.NaN, Number.NaN], [1, 2], 0.5)).toBeNaN();
  });

  it('tails of ten: first and ninth', () => {
    const values = [10, 20, 30, 40, 50, 60, 70, 80, 90, 100];
    const even = values.map(() => 1);
    expect(quantile(values, even, 0.1)).toBe(15);
    expect(quantile(values, even, 0.85)).toBe(90);
    expect(quantile(values, even, 0)).toBe(10);
    expect(quantile(values, even, 1)).toBe(100);
  });

  it('any column: splitting scenarios or telling them in another order changes nothing', () => {
    const scenario = fc.record({
      value: fc.integer({ min: 0, max: 12 }),
      weight: fc.integer({ min: 1, max: 6 }),
      parts: fc.integer({ min: 1, max: 3 }),
    });
    fc.assert(
      fc.property(fc.array(scenario, { minLength: 1, maxLength: 60 }), fc.constantFrom(0.1, 0.5, 0.9), (drawn, q) => {
        const whole = drawn.map(({ value, weight }) => ({ value, weight: weight * 6 }));
        const split = drawn.flatMap(({ value, weight, parts }) =>
          Array.from({ length: parts }, () => ({ value, weight: (weight * 6) / parts })),
        );
        const of = (list: readonly { value: number; weight: number }[]): number =>
          quantile(
            list.map(({ value }) => value),
            list.map(({ weight }) => weight),
            q,
          );
        expect(of(split)).toBe(of(whole));
        expect(of(whole.toReversed())).toBe(of(whole));
      }),
      { seed: SEED, numRuns: 300 },
    );
  });
});

describe('scenarioQuantiles', () => {
  it('two slots of three scenarios: slot by slot', () => {
    const values = Float32Array.of(1, 10, 2, 20, 3, 30);
    const shape = { scenarioCount: 3, pointCount: 2, weights: Int32Array.of(1, 1, 2) };
    expect([...scenarioQuantiles(values, shape, 0.5)]).toEqual([2.5, 25]);
    expect([...scenarioMedians(values, shape)]).toEqual([2.5, 25]);
  });
});
