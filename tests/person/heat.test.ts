import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  heatFactorRatio,
  heatLimitC,
  humidexBand,
  humidexC,
  humidexFromHumidityC,
  wbgtEstimateC,
  wbgtShadeC,
  wbgtSunC,
  workCapacityRatio,
  type Effort,
} from '../../lib/person/index.ts';
import { golden } from './golden.ts';

interface Golden {
  readonly tolerance: { readonly value: number };
  readonly humidex: readonly { T: number; Td?: number; RH?: number; expect: number }[];
  readonly humidexBands: readonly (readonly [number, number | null, string])[];
  readonly wbgt: readonly {
    tnwb?: number;
    tg?: number;
    ta?: number;
    T?: number;
    RH?: number;
    expect_shade?: number;
    expect_sun?: number;
    expect_simple?: number;
  }[];
  readonly niosh: readonly { M: number; REL: number; RAL: number }[];
  readonly workCapacity: readonly { wbgt: number; heavy: number; moderate: number; light: number }[];
}

const file = golden('heat') as Golden;
const EFFORTS = ['light', 'moderate', 'heavy'] as const satisfies readonly Effort[];
const SEED = { seed: 11, numRuns: 200 };
const someAirC = fc.double({ min: -40, max: 55, noNaN: true });
const someHumidity = fc.double({ min: 0, max: 1, noNaN: true });

const expectNear = (actual: number, wanted: number): void =>
  expect(Math.abs(actual - wanted)).toBeLessThan(file.tolerance.value);

/** The figures of one kind; a kind without any would test nothing. */
function having<Key extends string>(key: Key): readonly (Golden['wbgt'][number] & Readonly<Record<Key, number>>)[] {
  const found = file.wbgt.flatMap((given) => {
    const value = given[key as keyof typeof given];
    return value === undefined ? [] : [{ ...given, [key]: value } as typeof given & Record<Key, number>];
  });
  if (found.length === 0) throw new Error(`no ${key} in the golden file`);
  return found;
}

describe('wet-bulb globe temperature (ISO 7243; the estimate from memory)', () => {
  it.each(having('expect_sun'))('sun: $expect_sun °C', ({ tnwb = 0, tg = 0, ta = 0, expect_sun }) => {
    expectNear(wbgtSunC({ naturalWetBulbC: tnwb, globeC: tg, airC: ta }), expect_sun);
  });

  it.each(having('expect_shade'))('shade: $expect_shade °C', ({ tnwb = 0, tg = 0, expect_shade }) => {
    expectNear(wbgtShadeC({ naturalWetBulbC: tnwb, globeC: tg }), expect_shade);
  });

  it.each(having('expect_simple'))('$T °C, $RH %: $expect_simple °C', ({ T = 0, RH = 0, expect_simple }) => {
    expectNear(wbgtEstimateC({ airC: T, humidityRatio: RH / 100 }), expect_simple);
  });

  it('humidity in percent, or no number: a mistake of ours', () => {
    expect(() => wbgtEstimateC({ airC: 30, humidityRatio: 70 })).toThrow('humidityRatio');
    expect(() => wbgtEstimateC({ airC: Number.NaN, humidityRatio: 0.7 })).toThrow('air');
    expect(() => wbgtSunC({ naturalWetBulbC: Number.NaN, globeC: 30, airC: 30 })).toThrow('naturalWetBulbC');
    expect(() => wbgtShadeC({ naturalWetBulbC: 25, globeC: Number.NaN })).toThrow('globeC');
  });

  it('any air, moister: never a lower estimate', () => {
    fc.assert(
      fc.property(someAirC, someHumidity, someHumidity, (airC, a, b) => {
        const [drierC, moisterC] = [Math.min(a, b), Math.max(a, b)].map((humidityRatio) =>
          wbgtEstimateC({ airC, humidityRatio }),
        );
        expect(moisterC).toBeGreaterThanOrEqual(drierC ?? Number.NaN);
      }),
      SEED,
    );
  });
});

describe('humidex (Environment Canada, at second hand)', () => {
  it.each(file.humidex)('$T °C, dew point $Td °C, humidity $RH %: $expect', ({ T, Td, RH = 0, expect: wanted }) => {
    const valueC =
      Td === undefined
        ? humidexFromHumidityC({ airC: T, humidityRatio: RH / 100 })
        : humidexC({ airC: T, dewPointC: Td });
    expectNear(valueC, wanted);
  });

  it('saturated air at 30 °C: the two forms agree within a degree, that from humidity the lower', () => {
    const apartC = humidexC({ airC: 30, dewPointC: 30 }) - humidexFromHumidityC({ airC: 30, humidityRatio: 1 });
    expect(apartC).toBeGreaterThan(0);
    expect(apartC).toBeLessThan(1);
  });

  it('below absolute zero, no number: a mistake of ours', () => {
    expect(() => humidexC({ airC: 30, dewPointC: -274 })).toThrow('dewPoint');
    expect(() => humidexC({ airC: Number.NaN, dewPointC: 20 })).toThrow('airC');
    expect(() => humidexBand(Number.NaN)).toThrow('humidex');
  });

  it('any air: numbers', () => {
    fc.assert(
      fc.property(someAirC, someHumidity, fc.double({ min: -60, max: 35, noNaN: true }), (airC, humidity, dewC) => {
        expect(humidexFromHumidityC({ airC, humidityRatio: humidity })).toBeGreaterThan(-60);
        expect(humidexC({ airC, dewPointC: dewC })).toBeGreaterThan(-60);
      }),
      SEED,
    );
  });
});

describe('humidexBand (Environment Canada, at second hand)', () => {
  const words: Readonly<Record<string, string>> = {
    none: 'little or none',
    some: 'some',
    great: 'great; avoid exertion',
    dangerous: 'dangerous',
    'heat-stroke': 'heat stroke imminent',
  };

  it.each(file.humidexBands)('humidex %s to %s: %s', (from, to, text) => {
    // 45 ends one band and begins the next; 54 likewise: "over 45" and "54 and more" in the words of the table.
    const first = from === 45 ? 45.1 : from;
    const last = to === 54 ? 53 : (to ?? 70);
    for (const value of [first, last, (first + last) / 2]) expect(words[humidexBand(value)]).toBe(text);
  });

  it('between two bands: the hotter one', () => {
    expect(humidexBand(29.01)).toBe('some');
    expect(humidexBand(39.5)).toBe('great');
    expect(humidexBand(53.5)).toBe('heat-stroke');
  });
});

describe('heatLimitC (NIOSH 2016-106, through a public implementation)', () => {
  it.each(file.niosh)('$M W: $REL °C used to the heat, $RAL °C not', ({ M, REL, RAL }) => {
    expectNear(heatLimitC({ metabolicW: M, acclimatised: true }), REL);
    expectNear(heatLimitC({ metabolicW: M, acclimatised: false }), RAL);
  });

  it('no work at all: not the formula', () => {
    expect(() => heatLimitC({ metabolicW: 0, acclimatised: true })).toThrow('metabolicW');
  });

  it('from 100 W on: harder work has a lower limit, and not being used to the heat lowers it more', () => {
    fc.assert(
      fc.property(fc.double({ min: 100, max: 800, noNaN: true }), (metabolicW) => {
        const usedC = heatLimitC({ metabolicW, acclimatised: true });
        expect(heatLimitC({ metabolicW: metabolicW + 50, acclimatised: true })).toBeLessThan(usedC);
        expect(heatLimitC({ metabolicW, acclimatised: false })).toBeLessThan(usedC);
      }),
      SEED,
    );
  });
});

describe('workCapacityRatio and heatFactorRatio (Bröde et al. 2018, as in a public implementation)', () => {
  const cases = file.workCapacity.flatMap((row) =>
    EFFORTS.map((effort) => ({ wbgtC: row.wbgt, effort, percent: row[effort] })),
  );

  it.each(cases)('WBGT $wbgtC °C, $effort: $percent %', ({ wbgtC, effort, percent }) => {
    expect(Math.abs(100 * workCapacityRatio({ wbgtC, effort }) - percent)).toBeLessThan(file.tolerance.value);
    expect(heatFactorRatio({ wbgtC, effort })).toBeCloseTo(100 / percent, 4);
  });

  it('frost: no time lost to the heat', () => {
    expect(workCapacityRatio({ wbgtC: -10, effort: 'heavy' })).toBe(1);
    expect(heatFactorRatio({ wbgtC: 0, effort: 'light' })).toBe(1);
  });

  it('no number: a mistake of ours', () => {
    expect(() => heatFactorRatio({ wbgtC: Number.NaN, effort: 'light' })).toThrow('wbgtC');
  });

  it('any WBGT: from 1 to 10, never less when hotter, never less for harder work in heat people live in', () => {
    const someWbgtC = fc.double({ min: -40, max: 60, noNaN: true });
    fc.assert(
      fc.property(
        someWbgtC,
        fc.double({ min: 0, max: 20, noNaN: true }),
        fc.constantFrom(...EFFORTS),
        (wbgtC, by, effort) => {
          const ratio = heatFactorRatio({ wbgtC, effort });
          expect(ratio).toBeGreaterThanOrEqual(1);
          expect(ratio).toBeLessThanOrEqual(10);
          expect(heatFactorRatio({ wbgtC: wbgtC + by, effort })).toBeGreaterThanOrEqual(ratio);
        },
      ),
      SEED,
    );
    fc.assert(
      fc.property(fc.double({ min: 0, max: 40, noNaN: true }), (wbgtC) => {
        const [light = 0, moderate = 0, heavy = 0] = EFFORTS.map((effort) => heatFactorRatio({ wbgtC, effort }));
        expect(moderate).toBeGreaterThanOrEqual(light);
        expect(heavy).toBeGreaterThanOrEqual(moderate);
      }),
      SEED,
    );
  });
});
