import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { asleepPressureRatio, awakePressureRatio, naturalSleepH, naturalWakeH } from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Case {
  readonly fn: string;
  readonly args: readonly number[];
  readonly expect: number;
}

const { cases, tolerance } = golden('two-process') as { cases: readonly Case[]; tolerance: { value: number } };
const functions: Readonly<Record<string, (pressureRatio: number, elapsedH: number) => number>> = {
  wake: (pressureRatio, elapsedH) => awakePressureRatio({ pressureRatio, elapsedH }),
  sleep: (pressureRatio, elapsedH) => asleepPressureRatio({ pressureRatio, elapsedH }),
  natural_sleep_h: naturalSleepH,
  natural_wake_h: naturalWakeH,
};

describe('two-process model (Skeldon & Dijk 2025)', () => {
  it.each(cases.map((one) => [`${one.fn}(${one.args.join(', ')})`, one] as const))('%s', (_, one) => {
    const value = functions[one.fn]?.(one.args[0] ?? Number.NaN, one.args[1] ?? Number.NaN) ?? Number.NaN;
    expect(Math.abs(value - one.expect)).toBeLessThan(tolerance.value);
  });

  it('the natural lengths: lead from one level to the other', () => {
    expect(asleepPressureRatio({ pressureRatio: 0.67, elapsedH: naturalSleepH() })).toBeCloseTo(0.17, 12);
    expect(awakePressureRatio({ pressureRatio: 0.17, elapsedH: naturalWakeH() })).toBeCloseTo(0.67, 12);
  });

  it('any pressure and time: stays between 0 and 1, and two halves make a whole', () => {
    const share = fc.double({ min: 0, max: 1, noNaN: true });
    fc.assert(
      fc.property(share, fc.double({ min: 0, max: 72, noNaN: true }), (pressureRatio, elapsedH) => {
        for (const after of [awakePressureRatio, asleepPressureRatio]) {
          const whole = after({ pressureRatio, elapsedH });
          const half = after({ pressureRatio, elapsedH: elapsedH / 2 });
          expect(whole).toBeGreaterThanOrEqual(0);
          expect(whole).toBeLessThanOrEqual(1);
          expect(after({ pressureRatio: half, elapsedH: elapsedH / 2 })).toBeCloseTo(whole, 10);
        }
      }),
      { seed: 11, numRuns: 100 },
    );
  });
});
