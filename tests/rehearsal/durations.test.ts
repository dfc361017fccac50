import { describe, expect, test } from 'vitest';
import type { WorkMinutes } from '../../lib/jobs/index.ts';
import { pertDrawMin, pertQuantileMin } from '../../lib/jobs/index.ts';
import { normalProbability, normalQuantile } from '../../lib/jobs/normal.ts';
import { durationScores } from '../../lib/rehearsal/index.ts';
import { golden } from './golden.ts';

const normal = golden('rehearsal/normal') as {
  tolerance: { value: number };
  cases: readonly { score: number; probability: number }[];
};
const quantiles = golden('rehearsal/pert-quantiles') as {
  tolerance: { valueMin: number };
  cases: readonly {
    work: WorkMinutes;
    meanMin: number;
    quantiles: readonly { probability: number; minutesMin: number }[];
  }[];
};
const independent = golden('jobs/pert-draws') as { given: WorkMinutes; sumOf3: Record<string, number> };
const correlated = golden('jobs/correlated-draws') as {
  cases: readonly {
    name: string;
    steps: readonly WorkMinutes[];
    meanMin: number;
    p50Min: number;
    p80Min: number;
    p90Min: number;
  }[];
};

const quantileOf = (values: readonly number[], share: number): number =>
  values.toSorted((a, b) => a - b)[Math.floor(values.length * share)] ?? Number.NaN;

describe('normal distribution (SciPy)', () => {
  test.each(normal.cases)('probability below $score', ({ score, probability }) => {
    expect(Math.abs(normalProbability(score) - probability)).toBeLessThan(normal.tolerance.value);
  });

  test.each(normal.cases.filter(({ score }) => Math.abs(score) <= 4))('quantile that gives $score', (given) => {
    expect(normalQuantile(given.probability)).toBeCloseTo(given.score, 9);
  });

  test('no probability: throws', () => {
    for (const probability of [0, 1, Number.NaN]) expect(() => normalQuantile(probability)).toThrow('between 0 and 1');
  });
});

describe('pertQuantileMin (beta.ppf of SciPy)', () => {
  test.each(quantiles.cases)('$work', ({ work, quantiles: wanted }) => {
    for (const { probability, minutesMin } of wanted)
      expect(Math.abs(pertQuantileMin(work, probability) - minutesMin)).toBeLessThan(quantiles.tolerance.valueMin);
  });

  test('no spread: its own minutes', () => {
    expect(pertDrawMin({ leastMin: 12, likelyMin: 12, mostMin: 12 }, 2.5)).toBe(12);
  });

  test.each(quantiles.cases)('mean of 4096 even draws of $work: (a + 4m + b) / 6', ({ work, meanMin }) => {
    let sum = 0;
    for (let i = 0; i < 4096; i++) sum += pertQuantileMin(work, (i + 0.5) / 4096);
    expect(sum / 4096).toBeCloseTo(meanMin, 2);
  });
});

describe('durationScores', () => {
  const sobolSteps = Array.from({ length: 4 }, (_, index) => ({ jobId: 'job', stepId: String(index) }));
  const drawn = (steps: readonly WorkMinutes[], listed: boolean): number[] => {
    const scores = durationScores({ seed: 3, drawCount: 4096, sobolSteps: listed ? sobolSteps : [] });
    const all = steps.map((_, index) => scores({ jobId: 'job', stepId: String(index), sessionNumber: 0 }));
    return Array.from({ length: 4096 }, (_, i) =>
      steps.reduce((sum, work, k) => sum + pertDrawMin(work, all[k]?.[i] ?? 0), 0),
    );
  };

  // 2 000 000 draws of SciPy with the same copula; ours are 4096.
  describe.each([true, false])('chains of steps, correlated 0.5 (Sobol: %s)', (listed) => {
    test.each(correlated.cases)('$name: mean and quantiles within 1.5 %', (given) => {
      const sums = drawn(given.steps, listed);
      expect(Math.abs(sums.reduce((sum, min) => sum + min, 0) / 4096 / given.meanMin - 1)).toBeLessThan(0.005);
      for (const [share, key] of [
        [0.5, 'p50Min'],
        [0.8, 'p80Min'],
        [0.9, 'p90Min'],
      ] as const)
        expect(Math.abs(quantileOf(sums, share) / given[key] - 1)).toBeLessThan(0.015);
    });
  });

  test('three steps without a common factor: quantiles of 200 000 independent draws, and P(sum <= 90) = 0.10', () => {
    // Three seeds share nothing: each step under a seed of its own.
    const other = [5, 6, 7].map((seed) =>
      durationScores({ seed, drawCount: 8192, sobolSteps })({ jobId: 'job', stepId: '0', sessionNumber: 0 }),
    );
    const sums = Array.from({ length: 8192 }, (_, i) =>
      other.reduce((sum, scoresOf) => sum + pertDrawMin(independent.given, scoresOf[i] ?? 0), 0),
    );
    expect(Math.abs(quantileOf(sums, 0.5) - (independent.sumOf3['p50Min'] ?? 0))).toBeLessThan(1);
    expect(Math.abs(quantileOf(sums, 0.8) - (independent.sumOf3['p80Min'] ?? 0))).toBeLessThan(1);
    expect(Math.abs(quantileOf(sums, 0.9) - (independent.sumOf3['p90Min'] ?? 0))).toBeLessThan(1.2);
    expect(Math.abs(sums.filter((min) => min <= 90).length / 8192 - 0.1)).toBeLessThan(0.015);
  });

  test('two steps: correlation 0.5 of their scores, of two sessions too', () => {
    const scores = durationScores({ seed: 1, drawCount: 4096, sobolSteps });
    const a = scores({ jobId: 'job', stepId: '0', sessionNumber: 0 });
    for (const key of [
      { jobId: 'job', stepId: '1', sessionNumber: 0 },
      { jobId: 'job', stepId: '0', sessionNumber: 1 },
      { jobId: 'other', stepId: '0', sessionNumber: 0 },
    ]) {
      const b = scores(key);
      const product = a.reduce((sum, score, i) => sum + score * (b[i] ?? 0), 0) / 4096;
      // One standard error is (1 - ρ²)/√n = 0.012.
      expect(Math.abs(product - 0.5)).toBeLessThan(0.036);
    }
  });

  test('members that repeat every 32 draws: every member meets short and long alike', () => {
    const scores = durationScores({ seed: 1, drawCount: 1024, sobolSteps })({
      jobId: 'job',
      stepId: '0',
      sessionNumber: 0,
    });
    for (let member = 0; member < 32; member++) {
      const own = scores.filter((_, i) => i % 32 === member);
      // 32 draws of unit variance: one standard error is 0.18.
      expect(Math.abs(own.reduce((sum, score) => sum + score, 0) / own.length)).toBeLessThan(0.75);
    }
  });
});
