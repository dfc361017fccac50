import { describe, expect, it } from 'vitest';
import { heightTicks, temperatureTicks, windTicks } from '../../../server/presenters/units/lane-ticks.ts';
import { BEAUFORT, FEET, SI } from './every-unit.ts';
import { PLAIN_UNITS } from '../../../server/presenters/units/shown-units.ts';

const textsOf = (ticks: readonly { readonly text: string }[]): string => ticks.map(({ text }) => text).join(' ');

describe('ticks of lanes, which stand where kn, m and °C have them', () => {
  it('kn: every ten', () => expect(textsOf(windTicks(35, PLAIN_UNITS))).toBe('0 10 20 30'));

  it('m/s: every five, where so many knots are (SI Brochure, table 8: 1 kn = 1852/3600 m/s)', () => {
    const ticks = windTicks(35, SI);
    expect(textsOf(ticks)).toBe('0 5 10 15');
    expect(ticks[2]?.value).toBeCloseTo((10 * 3600) / 1852, 6);
  });

  it('Beaufort: where forces begin (WMO-No. 558)', () => {
    expect(windTicks(35, BEAUFORT).map(({ value, text }) => `${text} at ${value}`)).toEqual([
      '0 at 0',
      '3 at 7',
      '4 at 11',
      '5 at 17',
      '6 at 22',
      '7 at 28',
      '8 at 34',
    ]);
  });

  it('sea in m and ft', () => {
    expect(textsOf(heightTicks(5, PLAIN_UNITS))).toBe('0 2 4');
    expect(textsOf(heightTicks(2, PLAIN_UNITS))).toBe('0 1 2');
    const ticks = heightTicks(5, FEET);
    expect(textsOf(ticks)).toBe('0 5 10 15');
    expect(ticks[1]?.value).toBeCloseTo(1.524, 9);
  });

  it('air in °C and °F: inside the lane', () => {
    expect(textsOf(temperatureTicks({ leastC: 5, mostC: 15 }, PLAIN_UNITS))).toBe('5 15');
    const ticks = temperatureTicks({ leastC: 5, mostC: 15 }, FEET);
    expect(textsOf(ticks)).toBe('45 55');
    for (const { value } of ticks) expect(value >= 5 && value <= 15).toBe(true);
  });
});
