import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  gripRatio,
  liftFrequencyRatio,
  LIFTING,
  liftingIndexRatio,
  liftingRisk,
  liftLimitKg,
  type Lift,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly cases: readonly {
    H: number;
    V: number;
    D: number;
    A: number;
    FM: number;
    CM: number;
    expect?: number;
    load?: number;
    expect_LI?: number;
  }[];
  readonly frequencyBelow75cm: Readonly<Record<string, readonly number[]>>;
  readonly frequencyFrom75cm: Readonly<Record<string, readonly number[]>>;
  readonly coupling: Readonly<Record<'good' | 'fair' | 'poor', readonly [number, number]>>;
}

const file = golden('lifting') as Golden;
const SEED = { seed: 11, numRuns: 300 };
const SPELLS = ['hour', 'two-hours', 'day'] as const;
const best: Lift = { reachM: 0.25, heightM: 0.75, wayM: 0.25, twistDeg: 0, frequencyRatio: 1, gripRatio: 1 };

const liftOf = ({ H, V, D, A, FM, CM }: Golden['cases'][number]): Lift => ({
  reachM: H / 100,
  heightM: V / 100,
  wayM: D / 100,
  twistDeg: A,
  frequencyRatio: FM,
  gripRatio: CM,
});

describe('liftLimitKg and liftingIndexRatio (NIOSH 94-110)', () => {
  const limits = file.cases.flatMap((given) =>
    given.expect === undefined ? [] : [{ ...given, wanted: given.expect }],
  );
  const indices = file.cases.flatMap((given) =>
    given.load === undefined || given.expect_LI === undefined
      ? []
      : [{ ...given, load: given.load, wanted: given.expect_LI }],
  );

  it.each(limits)('H $H V $V D $D cm, A $A°, FM $FM, CM $CM: $wanted kg', (given) => {
    expect(Math.abs(liftLimitKg(liftOf(given)) - given.wanted)).toBeLessThan(file.tolerance.value);
  });

  it.each(indices)('$load kg in that posture: index $wanted', (given) => {
    const indexRatio = liftingIndexRatio({ loadKg: given.load, limitKg: liftLimitKg(liftOf(given)) });
    expect(Math.abs((indexRatio ?? Number.NaN) - given.wanted)).toBeLessThan(file.tolerance.value);
    expect(liftingRisk(indexRatio)).toBe('high');
  });

  it('closer than 0.25 m, a way of less than 0.25 m: counts as 0.25 m', () => {
    expect(liftLimitKg({ ...best, reachM: 0.1, wayM: 0 })).toBe(liftLimitKg(best));
    expect(liftLimitKg(best)).toBe(23);
  });

  it('a turn to either side: the same', () => {
    expect(liftLimitKg({ ...best, twistDeg: -30 })).toBe(liftLimitKg({ ...best, twistDeg: 30 }));
  });

  it.each([
    ['reach', { reachM: 0.63 }, { reachM: 0.64 }],
    ['height', { heightM: 1.75 }, { heightM: 1.76 }],
    ['way', { wayM: 1.75 }, { wayM: 1.76 }],
    ['turn', { twistDeg: 135 }, { twistDeg: -136 }],
  ] as const)('%s beyond the end of the handbook: nothing is to be lifted', (_, within, beyond) => {
    expect(liftLimitKg({ ...best, ...within })).toBeGreaterThan(5);
    expect(liftLimitKg({ ...best, ...beyond })).toBe(0);
  });

  it('no limit, nothing to divide by: no index, and the risk is high', () => {
    expect(liftingIndexRatio({ loadKg: 0, limitKg: 0 })).toBeNull();
    expect(liftingRisk(null)).toBe('high');
  });

  it('index 1 and 3: within, and the first that is high', () => {
    expect([0.5, 1, 1.01, 2.99, 3].map(liftingRisk)).toEqual(['within', 'within', 'raised', 'raised', 'high']);
    expect(() => liftingRisk(Number.NaN)).toThrow('indexRatio');
  });

  it('a ratio above 1, a length below 0, no number: a mistake of ours', () => {
    expect(() => liftLimitKg({ ...best, frequencyRatio: 1.1 })).toThrow('frequencyRatio');
    expect(() => liftLimitKg({ ...best, heightM: -0.1 })).toThrow('heightM');
    expect(() => liftLimitKg({ ...best, twistDeg: Number.NaN })).toThrow('twistDeg');
    expect(() => liftingIndexRatio({ loadKg: -1, limitKg: 5 })).toThrow('loadKg');
  });

  it('any posture: 0 … 23 kg, and farther out never more', () => {
    const some = (max: number): fc.Arbitrary<number> => fc.double({ min: 0, max, noNaN: true });
    const someLift = fc.record({
      reachM: some(1),
      heightM: some(2),
      wayM: some(2),
      twistDeg: fc.double({ min: -180, max: 180, noNaN: true }),
      frequencyRatio: some(1),
      gripRatio: some(1),
    });
    fc.assert(
      fc.property(someLift, some(0.5), (lift, byM) => {
        const limitKg = liftLimitKg(lift);
        expect(limitKg).toBeGreaterThanOrEqual(0);
        expect(limitKg).toBeLessThanOrEqual(LIFTING.load.value);
        expect(liftLimitKg({ ...lift, reachM: lift.reachM + byM })).toBeLessThanOrEqual(limitKg);
      }),
      SEED,
    );
  });
});

describe('liftFrequencyRatio (NIOSH 94-110, table 5, from memory and at second hand)', () => {
  it.each(Object.entries(file.frequencyBelow75cm))('%s a minute, hands low: %j', (perMin, wanted) => {
    const liftsPerMin = Number(perMin);
    expect(SPELLS.map((spell) => liftFrequencyRatio({ liftsPerMin, heightM: 0.74, spell }))).toEqual(wanted);
  });

  it.each(Object.entries(file.frequencyFrom75cm))('%s a minute, hands at 0.75 m: %j', (perMin, wanted) => {
    const liftsPerMin = Number(perMin);
    expect(SPELLS.map((spell) => liftFrequencyRatio({ liftsPerMin, heightM: 0.75, spell }))).toEqual(wanted);
  });

  it('seldom: as every five minutes; between two rows: the more frequent; above the table: 0', () => {
    const asked = { heightM: 1, spell: 'hour' } as const;
    expect(liftFrequencyRatio({ ...asked, liftsPerMin: 0.01 })).toBe(1);
    expect(liftFrequencyRatio({ ...asked, liftsPerMin: 1.5 })).toBe(0.91);
    expect(liftFrequencyRatio({ ...asked, liftsPerMin: 15.1 })).toBe(0);
  });
});

describe('gripRatio (NIOSH 94-110, table 7, from memory and at second hand)', () => {
  it.each(['good', 'fair', 'poor'] as const)('%s: as in the table', (grip) => {
    expect([0.74, 0.75].map((heightM) => gripRatio({ grip, heightM }))).toEqual(file.coupling[grip]);
  });
});
