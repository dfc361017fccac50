import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amountText, excessText, limitText, roomText } from '../../../server/presenters/amount-texts.ts';
import { quantityText, SEA_HEIGHT, spreadText, WIND, windSpan } from '../../../server/presenters/units/hour-figures.ts';
import { PLAIN_UNITS, type ShownUnits } from '../../../server/presenters/units/shown-units.ts';
import { BEAUFORT, EVERY_UNITS, FEET, SI } from './every-unit.ts';

/**
 * Back to kn, m and °C, written out here from the definitions: knot 1852/3600 m/s (SI Brochure, 9th edition, table 8), foot
 * 0.3048 m, 1.8 °F to 1 °C and 32 °F at 0 °C (NIST SP 811, appendix B).
 */
const back: Readonly<Record<string, (figure: number, isDifference: boolean) => number>> = {
  kn: (figure) => figure,
  'm/s': (figure) => (figure * 3600) / 1852,
  m: (figure) => figure,
  ft: (figure) => figure * 0.3048,
  '°C': (figure) => figure,
  '°F': (figure, isDifference) => (isDifference ? figure / 1.8 : (figure - 32) / 1.8),
};

function read(text: string, isDifference: boolean): number {
  const [, figure = '', unit = ''] = /(-?[\d.]+) (\S+)$/.exec(text) ?? [];
  const convert = back[unit];
  if (convert === undefined) throw new Error(`no unit in ${text}`);
  return convert(Number(figure), isDifference);
}

const TOLERANCE = 1e-5;
const units = fc.constantFrom(...EVERY_UNITS);
const unit = fc.constantFrom('kn', 'm', '°C');
const amount = fc.double({ min: 0, max: 80, noNaN: true });

describe('limits and rooms in every unit: never on the friendly side', () => {
  it('any room: what is shown is at most what there is', () => {
    fc.assert(
      fc.property(amount, unit, units, (room, of, shown) => {
        expect(read(roomText(room, of, shown), true)).toBeLessThanOrEqual(room + TOLERANCE);
      }),
      { seed: 306 },
    );
  });

  it('any limit not to be passed: never shown higher, and in no higher force', () => {
    fc.assert(
      fc.property(amount, unit, units, (limit, of, shown) => {
        const text = limitText(limit, of, shown);
        expect(read(text, false)).toBeLessThanOrEqual(limit + TOLERANCE);
        const [, force] = /^Bft (\d+), /.exec(text) ?? [];
        expect(LEAST_KN[Number(force ?? 0)]).toBeLessThanOrEqual(limit + TOLERANCE);
      }),
      { seed: 307 },
    );
  });

  it('any limit to be reached: never shown lower', () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 40, noNaN: true }), units, (leastC, shown) => {
        expect(read(limitText(leastC, '°C', shown, 'at-least'), false)).toBeGreaterThanOrEqual(leastC - TOLERANCE);
      }),
      { seed: 308 },
    );
  });

  it('any excess in other units than its own: never shown smaller', () => {
    const others = EVERY_UNITS.filter(
      ({ wind, height, temperature }) => wind === 'm/s' && height === 'ft' && temperature === '°F',
    );
    fc.assert(
      fc.property(amount, unit, fc.constantFrom(...others), (excess, of, shown) => {
        expect(read(excessText(excess, of, shown), true)).toBeGreaterThanOrEqual(excess - TOLERANCE);
      }),
      { seed: 309 },
    );
  });
});

/** Lowest whole knot of each force: Beaufort scale, WMO-No. 558. */
const LEAST_KN = [0, 1, 4, 7, 11, 17, 22, 28, 34, 41, 48, 56, 64] as const;

describe('amounts', () => {
  it.each<[string, string, ShownUnits, string]>([
    ['wind in kn', amountText(14.9, 'kn'), PLAIN_UNITS, '14.9 kn'],
    ['wind in m/s', amountText(18, 'kn', SI), SI, '9.3 m/s'],
    ['wind in Beaufort: its knots stay beside it', amountText(18, 'kn', BEAUFORT), BEAUFORT, 'Bft 5, 18 kn'],
    [
      'a limit of 16.9 kn is one of force 4: force 5 begins at 17 kn',
      limitText(16.9, 'kn', BEAUFORT),
      BEAUFORT,
      'Bft 4, 16.9 kn',
    ],
    ['room has no force', roomText(4.19, 'kn', BEAUFORT), BEAUFORT, '4.1 kn'],
    ['sea in ft', amountText(2, 'm', FEET), FEET, '6.6 ft'],
    ['a limit of 2 m is not 6.6 ft', limitText(2, 'm', FEET), FEET, '6.5 ft'],
    ['air in °F', amountText(8, '°C', FEET), FEET, '46.4 °F'],
    ['room of 2 °C is 3.6 °F, not 35.6', roomText(2, '°C', FEET), FEET, '3.6 °F'],
    ['miles stay', amountText(3, 'nm', FEET), FEET, '3 nm'],
    ['rain stays', amountText(0.4, 'mm/h', SI), SI, '0.4 mm/h'],
  ])('%s', (_, text, __, wanted) => {
    expect(text).toBe(wanted);
  });
});

describe('figures of an hour', () => {
  const wind = { p10: [6.2], p50: [9.4], p90: [12.1] };

  it.each([
    ['kn', spreadText(wind, 0, WIND, PLAIN_UNITS), '9 (6 to 12) kn'],
    ['m/s: from the wind itself, not from whole knots', spreadText(wind, 0, WIND, SI), '4.8 (3.2 to 6.2) m/s'],
    ['Beaufort', spreadText(wind, 0, WIND, BEAUFORT), 'Bft 3, 9 (6 to 12) kn'],
    ['ft', quantityText(1.24, SEA_HEIGHT, FEET), '4.1 ft'],
    ['unknown has no unit', quantityText(Number.NaN, WIND, BEAUFORT), 'unknown'],
    ['watch bill', windSpan({ p10: 6, p50: 9, p90: 12 }, BEAUFORT), 'Bft 3, 9 kn (6 to 12)'],
  ])('%s', (_, text, wanted) => {
    expect(text).toBe(wanted);
  });
});
