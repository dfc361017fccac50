import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  energyKcalPerMin,
  enduranceMin,
  EXERTION,
  METS,
  restAfterWorkMin,
  restAllowanceRatio,
  restWithinMin,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly mets: Readonly<Record<string, number>>;
  readonly energy: readonly { met: number; kg: number; expect: number }[];
  readonly rest: readonly (
    | { t_work: number; W: number; S: number; r: number; expect: number }
    | { total: number; W_watt: number; S_watt: number; r_watt: number; expect_rest_in_total: number }
  )[];
  readonly hold: readonly { f: number; endurance_min?: number; t_min?: number; rest_pct?: number }[];
}

const file = golden('exertion') as Golden;
const SEED = { seed: 11, numRuns: 200 };
/** 1 kcal is 4184 J. */
const KCAL_PER_MIN_PER_W = 60 / 4184;

const expectNear = (actual: number | null, wanted: number): void =>
  expect(Math.abs((actual ?? Number.NaN) - wanted)).toBeLessThan(file.tolerance.value);

describe('METS (2011 Compendium, public data file)', () => {
  it('every code: the published figure, and no code besides', () => {
    expect(Object.fromEntries(Object.entries(METS).map(([code, { value }]) => [code, value]))).toEqual(file.mets);
  });

  it('every activity: said in words of its own', () => {
    const words = Object.values(METS).map(({ activity }) => activity);
    expect(new Set(words).size).toBe(words.length);
    expect(words).not.toContain('');
  });
});

describe('energyKcalPerMin (standard conversion, from memory)', () => {
  it.each(file.energy)('$met MET, $kg kg: $expect kcal/min', ({ met, kg, expect: wanted }) => {
    expectNear(energyKcalPerMin({ met, bodyKg: kg }), wanted);
  });

  it('no body, less than no work: a mistake of ours', () => {
    expect(() => energyKcalPerMin({ met: 3, bodyKg: 0 })).toThrow('bodyKg');
    expect(() => energyKcalPerMin({ met: -1, bodyKg: 80 })).toThrow('met');
  });
});

describe('restAfterWorkMin and restWithinMin (Murrell, at second hand)', () => {
  it.each(file.rest.filter((given) => 't_work' in given))(
    '$t_work min at $W kcal/min: $expect min',
    ({ t_work, W, S, r, expect: wanted }) => {
      expectNear(restAfterWorkMin({ workMin: t_work, energyKcalPerMin: W }), wanted);
      const given = { energyKcalPerMin: W, limitKcalPerMin: S, restKcalPerMin: r };
      expectNear(restAfterWorkMin({ workMin: t_work, ...given }), wanted);
      expectNear(restWithinMin({ totalMin: t_work + wanted, ...given }), wanted);
    },
  );

  it.each(file.rest.filter((given) => 'total' in given))(
    '$W_watt W, limit $S_watt W, rest $r_watt W in $total min: $expect_rest_in_total min',
    ({ total, W_watt, S_watt, r_watt, expect_rest_in_total }) => {
      const given = {
        energyKcalPerMin: W_watt * KCAL_PER_MIN_PER_W,
        limitKcalPerMin: S_watt * KCAL_PER_MIN_PER_W,
        restKcalPerMin: r_watt * KCAL_PER_MIN_PER_W,
      };
      expectNear(restWithinMin({ totalMin: total, ...given }), expect_rest_in_total);
    },
  );

  it('the trap: an hour of work at 600 W needs an hour of rest after it, not the half hour of the other form', () => {
    const given = { energyKcalPerMin: 600, limitKcalPerMin: 350, restKcalPerMin: 100 };
    expect(restAfterWorkMin({ workMin: 60, ...given })).toBeCloseTo(60, 9);
    expect(restWithinMin({ totalMin: 60, ...given })).toBeCloseTo(30, 9);
    expect(restWithinMin({ totalMin: 120, ...given })).toBeCloseTo(60, 9);
  });

  it('a limit that is no more than rest: no rest would do, a mistake of ours', () => {
    const given = { energyKcalPerMin: 8, limitKcalPerMin: 1.5 };
    expect(() => restAfterWorkMin({ workMin: 20, ...given })).toThrow('limitOverRest');
    expect(() => restWithinMin({ totalMin: 20, ...given })).toThrow('limitOverRest');
    expect(() => restAfterWorkMin({ workMin: Number.NaN, energyKcalPerMin: 8 })).toThrow('workMin');
  });

  it('any work: the mean of work and rest comes to the limit, or there is no rest', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 240, noNaN: true }),
        fc.double({ min: 0, max: 20, noNaN: true }),
        (workMin, energy) => {
          const restMin = restAfterWorkMin({ workMin, energyKcalPerMin: energy });
          expect(restMin).toBeGreaterThanOrEqual(0);
          const spentKcal = workMin * energy + restMin * EXERTION.rest.value;
          const allowedKcal = EXERTION.workLimit.value * (workMin + restMin);
          const isLight = energy <= EXERTION.workLimit.value;
          expect(restMin === 0 || !isLight).toBe(true);
          expect(isLight ? 0 : spentKcal - allowedKcal).toBeCloseTo(0, 6);
          const withinMin = restWithinMin({ totalMin: workMin + restMin, energyKcalPerMin: energy });
          expect(withinMin).toBeCloseTo(restMin, 6);
        },
      ),
      SEED,
    );
  });
});

describe('enduranceMin (Bernard 2006, citing Rohmert)', () => {
  const cases = file.hold.flatMap(({ f, endurance_min }) =>
    endurance_min === undefined ? [] : [{ f, wantedMin: endurance_min }],
  );

  it.each(cases)('$f of the greatest force: $wantedMin min', ({ f, wantedMin }) => {
    expectNear(enduranceMin(f), wantedMin);
  });

  it('below 0.15: no end given; above the greatest force: not at all; less than none: a mistake of ours', () => {
    expect(enduranceMin(0.149)).toBeNull();
    expect(enduranceMin(0)).toBeNull();
    expect(enduranceMin(0.15)).toBeGreaterThan(15);
    expect(enduranceMin(1.01)).toBe(0);
    expect(() => enduranceMin(-0.1)).toThrow('forceShare');
    expect(() => enduranceMin(Number.NaN)).toThrow('forceShare');
  });

  it('more force: held for less time', () => {
    const someShare = fc.double({ min: 0.15, max: 1, noNaN: true });
    fc.assert(
      fc.property(someShare, fc.double({ min: 1e-6, max: 0.5, noNaN: true }), (forceShare, by) => {
        const heldMin = enduranceMin(forceShare) ?? Number.NaN;
        expect(heldMin).toBeGreaterThan(0);
        expect(enduranceMin(forceShare + by)).toBeLessThan(heldMin);
      }),
      SEED,
    );
  });
});

describe('restAllowanceRatio (Rohmert, from memory)', () => {
  const cases = file.hold.flatMap(({ f, t_min, rest_pct }) =>
    t_min === undefined || rest_pct === undefined ? [] : [{ f, t_min, rest_pct }],
  );

  it.each(cases)('$t_min min at $f of the greatest force: $rest_pct % of it', ({ f, t_min, rest_pct }) => {
    expect(
      Math.abs(100 * (restAllowanceRatio({ forceShare: f, holdMin: t_min }) ?? Number.NaN) - rest_pct),
    ).toBeLessThan(file.tolerance.value);
  });

  it('a force held for long: none; longer than it can be held: not possible', () => {
    expect(restAllowanceRatio({ forceShare: 0.1, holdMin: 60 })).toBe(0);
    expect(restAllowanceRatio({ forceShare: 0.15, holdMin: 10 })).toBe(0);
    expect(restAllowanceRatio({ forceShare: 0.5, holdMin: 1.2 })).toBeNull();
    expect(restAllowanceRatio({ forceShare: 1.2, holdMin: 0.01 })).toBeNull();
    expect(restAllowanceRatio({ forceShare: 1.2, holdMin: 0 })).toBe(0);
    expect(() => restAllowanceRatio({ forceShare: 0.5, holdMin: -1 })).toThrow('holdMin');
  });

  it('any hold that is possible: 0 or more, and never less for a longer one', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (forceShare, a, b) => {
          const longestMin = enduranceMin(forceShare) ?? 60;
          const [shorter, longer] = [Math.min(a, b), Math.max(a, b)].map((part) =>
            restAllowanceRatio({ forceShare, holdMin: part * longestMin }),
          );
          expect(shorter).toBeGreaterThanOrEqual(0);
          expect(longer).toBeGreaterThanOrEqual(shorter ?? Number.NaN);
        },
      ),
      SEED,
    );
  });
});
