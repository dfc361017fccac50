import { describe, expect, it } from 'vitest';
import {
  coldFactorRatio,
  coldHandsRatio,
  combinedFactorRatio,
  DEFAULT_TIME_FACTORS,
  handsFactorRatio,
  isWetWork,
  tiredFactorRatio,
  tooColdForFineWork,
  wetBulbC,
  windChillC,
  type Gloves,
  type Hands,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Defaults {
  readonly handFactor: readonly { k: number; WCET: number; t_min: number; glove: number; expect: number }[];
  readonly tiredFactor: readonly (readonly [number, number | 'refuse'])[];
  readonly productCap: number;
}

const defaults = golden('defaults') as Defaults;
const hands = { 0.01: 'gross', 0.015: 'medium', 0.025: 'fine' } as Readonly<Record<number, Hands>>;
const gloves = { 1: 'none', 1.15: 'thin', 1.35: 'thick' } as Readonly<Record<number, Gloves>>;

describe('windChillC (Environment Canada and NWS, 2001)', () => {
  const { cases } = golden('wind-chill') as { cases: readonly { T: number; V_kmh: number; expect: number }[] };

  it.each(cases)('$T °C, $V_kmh km/h: $expect', (given) => {
    const chillC = windChillC({ airC: given.T, deckWindKn: given.V_kmh / 1.852 });
    expect(Math.abs(chillC - given.expect)).toBeLessThan(1e-4);
  });

  it('warmer than 10 °C or no wind to speak of: the air temperature itself', () => {
    expect(windChillC({ airC: 14, deckWindKn: 30 })).toBe(14);
    expect(windChillC({ airC: 2, deckWindKn: 2 })).toBe(2);
  });
});

describe('handsFactorRatio (default of ours, no published coefficient)', () => {
  it.each(defaults.handFactor)('k $k, chill $WCET, $t_min min, glove $glove: $expect', (given) => {
    const ratio = handsFactorRatio({
      chillC: given.WCET,
      hands: hands[given.k] ?? 'gross',
      exposureMin: given.t_min,
      gloves: gloves[given.glove] ?? 'none',
    });
    expect(Math.abs(ratio - given.expect)).toBeLessThan(1e-4);
  });
});

describe('coldFactorRatio', () => {
  const cold = { airC: 5, deckWindKn: 20, hands: 'fine', exposureMin: 60, gloves: 'none', wet: false } as const;

  it('wet hands: as if the wind chill were 5 °C lower', () => {
    expect(coldFactorRatio({ ...cold, wet: true }) - coldFactorRatio(cold)).toBeCloseTo(0.025 * 5, 12);
  });

  it('a warm day: no time lost', () => {
    expect(coldFactorRatio({ ...cold, airC: 18 })).toBe(1);
  });
});

describe('tooColdForFineWork (engineering choice, no source)', () => {
  it.each([
    ['wind chill under -10', { airC: -5, chillC: -15.4, wet: false }, { observedC: -15.4, leastC: -10 }],
    ['dry at 4 °C', { airC: 4, chillC: 1, wet: false }, null],
    ['wet at 4 °C', { airC: 4, chillC: -4, wet: true }, { observedC: 4, leastC: 5 }],
    ['air unknown', { airC: Number.NaN, chillC: Number.NaN, wet: true }, null],
  ] as const)('%s', (_, work, refused) => {
    expect(tooColdForFineWork(work)).toEqual(refused);
  });
});

describe('isWetWork', () => {
  it.each([
    ['rain', { rainMmPerH: 0.1, trueWindKn: 5, isInSpray: false }, true],
    [
      'Beaufort 5 on the foredeck (WMO No. 558: chance of some spray)',
      { rainMmPerH: 0, trueWindKn: 17, isInSpray: true },
      true,
    ],
    ['Beaufort 5 in the cockpit', { rainMmPerH: 0, trueWindKn: 17, isInSpray: false }, false],
    ['a dry foredeck in Beaufort 4', { rainMmPerH: 0, trueWindKn: 16, isInSpray: true }, false],
    ['nothing known', { rainMmPerH: Number.NaN, trueWindKn: Number.NaN, isInSpray: true }, false],
  ] as const)('%s', (_, of, wet) => {
    expect(isWetWork(of)).toBe(wet);
  });
});

describe('wetBulbC (Stull 2011, worked example: 20 °C and 50 % give 13.7 °C; from memory)', () => {
  it('20 °C, 50 %', () => {
    expect(Math.abs(wetBulbC({ airC: 20, humidityRatio: 0.5 }) - 13.7)).toBeLessThan(0.05);
  });
});

describe('coefficients of one’s own', () => {
  it('a colder hand, thicker gloves, a stricter cap: used in place of the defaults', () => {
    const own = {
      ...DEFAULT_TIME_FACTORS,
      coldFinePerC: 0.05,
      glovesThickRatio: 2,
      productCapRatio: 2,
      tiredToKss6Ratio: 1.5,
    };
    const cold = { chillC: 0, hands: 'fine', exposureMin: 60 } as const;
    expect(coldHandsRatio(cold)).toBeCloseTo(1.25, 12);
    expect(coldHandsRatio(cold, own)).toBeCloseTo(1.5, 12);
    expect(handsFactorRatio({ ...cold, gloves: 'thick' }, own)).toBeCloseTo(3, 12);
    expect(combinedFactorRatio([1.5, 1.5])).toBeCloseTo(2.25, 12);
    expect(combinedFactorRatio([1.5, 1.5], own)).toBeNull();
    expect(tiredFactorRatio(5.5, own)).toBe(1.5);
  });
});

describe('tiredFactorRatio (engineering choice, no source)', () => {
  it('bands of mean KSS: as the list of defaults has them', () => {
    expect(defaults.tiredFactor.map(([kss]) => tiredFactorRatio(kss) ?? 'refuse')).toEqual(
      defaults.tiredFactor.map(([, factor]) => factor),
    );
    expect(tiredFactorRatio(7.99)).toBe(1.35);
  });
});

describe('combinedFactorRatio', () => {
  it('up to the cap: the product; above it, or with a refusal among the factors: refused', () => {
    expect(combinedFactorRatio([1.5, 2])).toBe(defaults.productCap);
    expect(combinedFactorRatio([1.5, 2.01])).toBeNull();
    expect(combinedFactorRatio([1, null])).toBeNull();
    expect(combinedFactorRatio([])).toBe(1);
  });
});
