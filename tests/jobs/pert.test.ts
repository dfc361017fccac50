import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  blockMinutes,
  blocksOf,
  durationQuantiles,
  libraryJob,
  pertDuration,
  sumDuration,
  type BlockMinutes,
  type Step,
  type WorkMinutes,
} from '../../lib/jobs/index.ts';
import { golden } from './golden.ts';

type Quantiles = Pick<BlockMinutes, 'p50Min' | 'p80Min' | 'p90Min'>;

const draws = golden('pert-draws') as {
  tolerance: { value: number };
  given: WorkMinutes;
  meanMin: number;
  single: Quantiles;
  sumOf3: Quantiles;
};
const correlated = golden('correlated-draws') as {
  tolerance: { share: number };
  cases: readonly (Quantiles & { name: string; steps: readonly WorkMinutes[]; meanMin: number })[];
};
const library = golden('library-minutes') as {
  tolerance: { meanMin: number; sdMin: number; p90Min: number };
  cases: readonly { job: string; meanMin: number; sdMin: number; p90Min: number }[];
};

/** Largest difference between the wanted figures and ours. */
const worst = (wanted: Partial<Quantiles>, ours: Quantiles): number =>
  Math.max(...Object.entries(wanted).map(([key, value]) => Math.abs(value - ours[key as keyof Quantiles])));

describe('pertDuration (200 000 draws of the beta distribution)', () => {
  const single = pertDuration(draws.given);

  it('mean of 20, 30, 90: (20 + 120 + 90) / 6', () => {
    expect(single.meanMin).toBeCloseTo(draws.meanMin, 4);
  });

  it('four fifths and nine tenths of the draws: within a minute', () => {
    expect(worst(draws.single, durationQuantiles(single))).toBeLessThan(draws.tolerance.value);
  });

  it('three such steps, independent: within a minute', () => {
    const sum = sumDuration([single, single, single], 0);
    expect(worst(draws.sumOf3, durationQuantiles(sum))).toBeLessThan(draws.tolerance.value);
  });

  it('an estimate without spread: its own minutes at every quantile', () => {
    const certain = pertDuration({ leastMin: 10, likelyMin: 10, mostMin: 10 });
    expect(durationQuantiles(sumDuration([certain, certain]))).toEqual({ p50Min: 20, p80Min: 20, p90Min: 20 });
  });
});

describe('sumDuration, correlation 0.5 (2 000 000 draws with a normal copula)', () => {
  it.each(correlated.cases)('$name: quantiles within 2.5 %', (given) => {
    const ours = durationQuantiles(sumDuration(given.steps.map(pertDuration)));
    for (const key of ['p50Min', 'p80Min', 'p90Min'] as const)
      expect(Math.abs(ours[key] / given[key] - 1)).toBeLessThan(correlated.tolerance.share);
  });

  it('the same steps, fully correlated: spreads add up', () => {
    const steps = [pertDuration({ leastMin: 5, likelyMin: 8, mostMin: 20 }), pertDuration(draws.given)];
    expect(sumDuration(steps, 1).sdMin).toBeCloseTo(15 / 6 + 70 / 6, 12);
  });

  it('one step: the same whatever the correlation', () => {
    const minutes = fc.integer({ min: 1, max: 100 });
    fc.assert(
      fc.property(minutes, minutes, minutes, fc.double({ min: 0, max: 1, noNaN: true }), (a, b, c, rho) => {
        const [leastMin = 1, likelyMin = 1, mostMin = 1] = [a, b, c].toSorted((x, y) => x - y);
        const step = pertDuration({ leastMin, likelyMin, mostMin });
        const sum = sumDuration([step], rho);
        expect(sum.meanMin).toBeCloseTo(step.meanMin, 9);
        expect(sum.sdMin).toBeCloseTo(step.sdMin, 9);
        expect(sum.skewnessRatio).toBeCloseTo(step.sdMin > 0 ? step.skewnessRatio : 0, 9);
      }),
      { seed: 4, numRuns: 200 },
    );
  });
});

describe('library minutes (arithmetic done by hand before)', () => {
  const near = (id: string): { steps: readonly [Step, ...Step[]] } => {
    const [first, ...rest] = libraryJob(id)?.steps ?? [];
    if (first === undefined) throw new Error(`no library job ${id}`);
    return { steps: [first, ...rest] };
  };

  it.each(library.cases)('$job: mean $meanMin, spread $sdMin, nine of ten within $p90Min', (given) => {
    const ours = blockMinutes(near(given.job));
    expect(Math.abs(ours.meanMin - given.meanMin)).toBeLessThanOrEqual(library.tolerance.meanMin + 1e-9);
    expect(Math.abs(ours.sdMin - given.sdMin)).toBeLessThanOrEqual(library.tolerance.sdMin + 1e-9);
    expect(Math.abs(ours.p90Min - given.p90Min)).toBeLessThanOrEqual(library.tolerance.p90Min);
  });

  it('every block: half within less than four fifths within less than nine tenths', () => {
    const job = libraryJob('drop-main');
    const minutes =
      job === null ? [] : blocksOf({ ...job, from: null, seam: null, priorityWeight: 1, after: [] }).map(blockMinutes);
    expect(minutes.length).toBeGreaterThan(1);
    for (const { p50Min, p80Min, p90Min } of minutes)
      expect([p50Min, p80Min, p90Min]).toEqual([p50Min, p80Min, p90Min].toSorted((a, b) => a - b));
  });
});
