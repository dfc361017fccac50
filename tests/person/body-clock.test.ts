import { describe, expect, it } from 'vitest';
import { bodyClockAlong, bodyClockH, nextLagMin } from '../../lib/person/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { golden } from './golden.ts';

interface Drift {
  readonly drift_min_per_day: number;
  readonly steady_lag_before_update_min: number;
  readonly after_update: number;
}

describe('body clock (Ingre et al. 2014, eq. 1.10, second hand)', () => {
  const { cases } = golden('body-clock') as { cases: readonly Drift[] };

  it.each(cases)('$drift_min_per_day min of solar time a day: the lag settles at $after_update', (drift) => {
    let lagMin = 0;
    for (let day = 0; day < 60; day++)
      lagMin = nextLagMin({ lagMin, solarShiftMin: drift.drift_min_per_day, elapsedH: 24 });
    expect(Math.abs(lagMin - drift.after_update)).toBeLessThan(1e-4);
    expect(Math.abs(lagMin + drift.drift_min_per_day - drift.steady_lag_before_update_min)).toBeLessThan(1e-4);
  });

  it('12:00Z at 178 W without lag: shortly after midnight', () => {
    expect(bodyClockH(12 * MS_PER_H, -178, 0)).toBeCloseTo(24 - 178 / 15 + 12 - 24, 10);
  });

  it('a body an hour behind solar time: an hour earlier on its clock', () => {
    expect(bodyClockH(12 * MS_PER_H, 0, 60)).toBeCloseTo(11, 10);
  });

  it('east over the date line: solar time moves by minutes, not by a day', () => {
    const todH = bodyClockAlong(
      [
        { epochMs: 0, lon: 179.5 },
        { epochMs: MS_PER_H, lon: -179.5 },
      ],
      0,
    );
    // One degree east is four minutes, nearly all of which the body has not followed after an hour.
    expect((todH[1] ?? 0) - (todH[0] ?? 0)).toBeGreaterThan(1);
    expect((todH[1] ?? 0) - (todH[0] ?? 0)).toBeLessThan(1 + 0.01);
  });

  it('at anchor with an hour of lag: 30 % of it is gone after a day', () => {
    const todH = bodyClockAlong(
      [
        { epochMs: 0, lon: 0 },
        { epochMs: 24 * MS_PER_H, lon: 0 },
      ],
      60,
    );
    expect(todH[0]).toBeCloseTo(23, 10);
    expect(todH[1]).toBeCloseTo(24 - 0.7, 10);
  });
});
