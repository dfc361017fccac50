import { describe, expect, it } from 'vitest';
import { goesByAir, WAIT_DEFAULTS, waitP80H, waitRateRatio, type BackgroundWait } from '../../lib/jobs/index.ts';

const cure: BackgroundWait = {
  ...WAIT_DEFAULTS,
  kind: 'cure',
  leastH: 6,
  likelyH: 12,
  mostH: 18,
  halvesPerC: 10,
  floorC: 13,
};

describe('background waits', () => {
  it.each([
    // Quantile 0.8 of beta(1 + 4(m − a)/(b − a), 1 + 4(b − m)/(b − a)) on [a, b], by numerical integration in Python.
    [6, 14, 48, 24.5853],
    [6, 16, 36, 22.6246],
    [6, 12, 18, 14.0808],
  ])('%d, %d, %d h: counted at the P80, %f h', (leastH, likelyH, mostH, wantedH) => {
    expect(waitP80H({ leastH, likelyH, mostH })).toBeCloseTo(wantedH, 2);
  });

  it('warmer by 10 °C: half the time; colder: twice (resin makers’ rule of thumb)', () => {
    expect([10, 20, 30].map((airC) => waitRateRatio({ ...cure, floorC: null }, airC))).toEqual([0.5, 1, 2]);
  });

  it('below its floor: it does not go on; at the floor it does', () => {
    expect([12.9, 13].map((airC) => waitRateRatio(cure, airC) > 0)).toEqual([false, true]);
  });

  it('air not known: as slow as at its floor, without a floor as at its own temperature', () => {
    expect(waitRateRatio(cure, Number.NaN)).toBeCloseTo(2 ** -0.7, 10);
    expect(waitRateRatio({ ...cure, floorC: null }, Number.NaN)).toBe(1);
  });

  it('kept warm below: the air on deck does not matter', () => {
    const kept = { ...cure, keptAtC: 25 };
    expect([
      goesByAir(cure),
      goesByAir(kept),
      goesByAir({ ...WAIT_DEFAULTS, ...cure, halvesPerC: null, floorC: null }),
    ]).toEqual([true, false, false]);
    expect(waitRateRatio(kept, -5)).toBeCloseTo(2 ** 0.5, 10);
  });
});
