import { describe, expect, test } from 'vitest';
import {
  calibrationFaults,
  calibrationOf,
  pairedDifference,
  type Statement,
} from '../../scripts/studies/statistics.ts';

// Worked out by hand; the clustered standard error is that of a ratio (Cochran, Sampling Techniques, §6.4; from memory).

const statement = (cluster: number, stated: number, trueCount: number, trialCount = 10): Statement => ({
  cluster,
  stated,
  trialCount,
  trueCount,
});

const binAt = (statements: readonly Statement[], from: number) =>
  calibrationOf(statements).bins.find((bin) => bin.from === from);

describe('calibrationOf', () => {
  test('a bin: its trials, mean stated, observed and difference', () => {
    expect(binAt([statement(1, 0.82, 9), statement(2, 0.88, 7)], 0.8)).toMatchObject({
      trialCount: 20,
      meanStated: 0.85,
      observed: 0.8,
      difference: expect.closeTo(-0.05, 12) as number,
    });
  });

  test('bin edges: the lower one belongs to it, and 1 to the last', () => {
    const counts = calibrationOf([
      statement(1, 0, 1),
      statement(1, 0.5, 1),
      statement(1, 0.95, 1),
      statement(1, 1, 1),
    ]).bins;
    expect(counts.map(({ trialCount }) => trialCount)).toEqual([10, 10, 0, 0, 0, 0, 20]);
  });

  test('standard error of two clusters: one trial above and one below in 20', () => {
    // The clusters are 9 − 8 and 7 − 8 from the common mean of 8 in 10: √(2 · (1 + 1)) / 20.
    const bin = binAt([statement(1, 0.85, 9), statement(2, 0.85, 7)], 0.8);
    expect(bin?.standardError).toBeCloseTo(Math.sqrt(4) / 20, 12);
  });

  test('trials that share a cluster count once: the same statements in one cluster say nothing of the spread', () => {
    expect(binAt([statement(1, 0.85, 9), statement(1, 0.85, 7)], 0.8)?.standardError).toBe(Infinity);
  });

  test('expected error: bins weighted by their trials', () => {
    // 0.1 off in 10 trials, 0.3 off in 30.
    const { expectedError } = calibrationOf([statement(1, 0.6, 5), statement(2, 0.8, 15, 30)]);
    expect(expectedError).toBeCloseTo((10 * 0.1 + 30 * 0.3) / 40, 12);
  });
});

describe('calibrationFaults', () => {
  const many = (stated: number, trueShare: number): Statement[] =>
    Array.from({ length: 300 }, (_, cluster) =>
      statement(cluster, stated, Math.round(10 * trueShare) + (cluster % 2 ? 1 : -1)),
    );

  test('as stated: none', () => {
    expect(calibrationFaults(calibrationOf(many(0.8, 0.8)))).toEqual([]);
  });

  test('ten points too high: the bin and the expected error', () => {
    const faults = calibrationFaults(calibrationOf(many(0.9, 0.8)));
    expect(faults).toHaveLength(2);
    expect(faults[0]).toContain('0.9–0.95: off by -10.0 points');
  });

  test('few trials: the bin is not judged', () => {
    const few = many(0.9, 0.9).concat(many(0.7, 0.4).slice(0, 5));
    expect(calibrationFaults(calibrationOf(few))).toEqual([]);
  });
});

describe('pairedDifference', () => {
  test('mean, counts, and an interval that holds it', () => {
    const pairs = Array.from({ length: 100 }, (_, k) => [k % 4 === 0 ? 2 : 1, 1] as const);
    const found = pairedDifference(pairs, 5);
    expect(found).toMatchObject({ mean: 0.25, betterCount: 25, worseCount: 0, count: 100 });
    // Normal interval of a share of a quarter in 100: 0.25 ± 1.96 · √(0.25 · 0.75 / 100) = 0.165 … 0.335.
    expect(Math.abs(found.low - 0.165)).toBeLessThan(0.02);
    expect(Math.abs(found.high - 0.335)).toBeLessThan(0.02);
    expect(pairedDifference(pairs, 5)).toEqual(found);
  });

  test('no pairs: nothing', () => {
    expect(pairedDifference([], 1)).toMatchObject({ mean: 0, low: 0, high: 0, count: 0 });
  });
});
