import { describe, expect, it } from 'vitest';
import {
  coldFactorRatio,
  combinedFactorRatio,
  handsFactorRatio,
  isTooColdForFineWork,
  tiredFactorRatio,
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

describe('isTooColdForFineWork', () => {
  it.each([
    ['wind chill under -10', { airC: -5, deckWindKn: 30, wet: false }, true],
    ['dry at 4 °C', { airC: 4, deckWindKn: 5, wet: false }, false],
    ['wet at 4 °C', { airC: 4, deckWindKn: 5, wet: true }, true],
  ] as const)('%s: %s', (_, work, refused) => {
    expect(isTooColdForFineWork(work)).toBe(refused);
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
