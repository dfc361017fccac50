import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ALCOHOL_EQUIVALENCE, alcoholEquivalent, crashOdds } from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly cases: readonly { delta_kss: number; expect: number }[];
  readonly interval: readonly [number, number];
  readonly alcohol: readonly { awake_h: number; expect: number | null }[];
  readonly lamond_dawson_awake_h: readonly [number, number];
}

const file = golden('crash-odds') as Golden;

describe('crashOdds (Akerstedt et al. 2008, abstract)', () => {
  it.each(file.cases)('$delta_kss steps sleepier: odds times $expect', ({ delta_kss, expect: wanted }) => {
    expect(Math.abs(crashOdds(delta_kss).likelyRatio - wanted)).toBeLessThan(file.tolerance.value);
  });

  it('one step: the published interval', () => {
    expect([crashOdds(1).leastRatio, crashOdds(1).mostRatio]).toEqual(file.interval);
  });

  it('no step: no change; a step fresher: the inverse', () => {
    expect(crashOdds(0)).toEqual({ leastRatio: 1, likelyRatio: 1, mostRatio: 1 });
    expect(crashOdds(-1).likelyRatio).toBeCloseTo(1 / 1.72, 12);
  });

  it('any rise or fall: the interval holds the likely value', () => {
    fc.assert(
      fc.property(fc.double({ min: -8, max: 8, noNaN: true }), (kssRisePoints) => {
        const { leastRatio, likelyRatio, mostRatio } = crashOdds(kssRisePoints);
        expect(leastRatio).toBeLessThanOrEqual(likelyRatio);
        expect(likelyRatio).toBeLessThanOrEqual(mostRatio);
      }),
      { seed: 11, numRuns: 100 },
    );
  });
});

describe('alcoholEquivalent (Dawson & Reid 1997, second hand)', () => {
  it.each(file.alcohol)('$awake_h h awake: $expect', ({ awake_h, expect: wanted }) => {
    expect(alcoholEquivalent(awake_h)?.alcohol.value ?? null).toBe(wanted);
  });

  it('0.10: at an hour that agrees with the four tasks of Lamond & Dawson 1999', () => {
    const awakeH = ALCOHOL_EQUIVALENCE.find((row) => row.alcohol.value === 0.1)?.awakeH;
    expect(awakeH).toBeGreaterThanOrEqual(file.lamond_dawson_awake_h[0]);
    expect(awakeH).toBeLessThanOrEqual(file.lamond_dawson_awake_h[1]);
  });
});
