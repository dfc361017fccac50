/** Every parameter that becomes a quantity, against WMO's own names and units (a committed excerpt, source and commits inside). */
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { PARAMETER_ROWS, type ParameterRow } from '../../lib/forecast/quantities.table.ts';
import {
  EDITION_1_LOCAL_PARAMETERS,
  EDITION_1_PARAMETERS,
} from '../../lib/grib/code-tables/edition-1-parameters.table.ts';
import { LOCAL_PARAMETERS } from '../../lib/grib/code-tables/local-parameters.table.ts';
import type { QuantityId } from '../../lib/forecast/index.ts';

interface Excerpt {
  readonly rows: Readonly<Record<string, { readonly name: string; readonly unit: string }>>;
}
const { rows: wmoRows } = JSON.parse(readFileSync('tests/golden/grib/wmo-parameters.json', 'utf8')) as Excerpt;

/** Name and unit of a code in the table it comes from: WMO's file, or a table of ours for edition 1 and local numbers. */
function tableRow(row: ParameterRow, code: string): readonly [name: string, unit: string] | undefined {
  const [edition, key = ''] = code.split(': ');
  if (edition === '2') {
    const wmo = wmoRows[key];
    return wmo === undefined ? LOCAL_PARAMETERS[`${row.centreCode}/${key}`] : [wmo.name, wmo.unit];
  }
  const [table, number = ''] = key.split('/');
  if (table === 'wmo' && Number(number) < 128) return EDITION_1_PARAMETERS[number];
  return EDITION_1_LOCAL_PARAMETERS[`${row.centreCode}/${table === 'wmo' ? 2 : table}/${number}`];
}

/** What the name of a parameter must say, and must not, for it to be a quantity. */
const NAMES: Readonly<Record<QuantityId, { says: RegExp; saysNot: RegExp }>> = {
  wind: { says: /wind/i, saysNot: /wave|gust|storm|stress/i },
  gust: { says: /gust/i, saysNot: /component/i },
  seaHeight: { says: /significant height of combined wind waves and swell/i, saysNot: /partition|period/i },
  wavePeriod: { says: /period|inverse mean wave frequency/i, saysNot: /height|partition|wind waves$|total swell/i },
  waveDirection: { says: /direction/i, saysNot: /partition|of wind waves|of swell|spread/i },
  pressure: { says: /pressure/i, saysNot: /surface pressure|vapour/i },
  rain: { says: /precipitation/i, saysNot: /convective|snow|large/i },
  air: { says: /temperature/i, saysNot: /skin|dewpoint|water|sea/i },
  humidity: { says: /relative humidity|dewpoint temperature/i, saysNot: /depression|maximum|specific/i },
  seaWater: { says: /water temperature|sea surface temperature/i, saysNot: /potential/i },
  cape: { says: /convective available potential energy/i, saysNot: /shear/i },
  visibility: { says: /visibility/i, saysNot: /fog/i },
  cloud: { says: /total cloud cover/i, saysNot: /low|high/i },
  current: { says: /current|surface water velocity/i, saysNot: /barotropic|mixed layer/i },
};

/** Units in which a quantity is coded, and 1 of each in Slatch's unit. */
const UNITS: Readonly<Record<QuantityId, Readonly<Record<string, number>>>> = {
  wind: { 'm s-1': 3600 / 1852, 'degree true': 1, degree: 1 },
  gust: { 'm s-1': 3600 / 1852 },
  seaHeight: { m: 1 },
  wavePeriod: { s: 1 },
  waveDirection: { 'degree true': 1, degree: 1 },
  pressure: { Pa: 0.01 },
  rain: { 'kg m-2': 1, 'kg m-2 s-1': 3600, m: 1000 },
  air: { K: 1 - 273.15 },
  // Kelvin: dew points.
  humidity: { '%': 1, K: 1 - 273.15 },
  seaWater: { K: 1 - 273.15 },
  cape: { 'J kg-1': 1 },
  visibility: { m: 1 / 1852 },
  cloud: { '%': 0.01, '0 to 1': 1 },
  current: { 'm s-1': 3600 / 1852 },
};

const oneForm = (unit: string): string => unit.replace(/^(.*)\/(kg|s)$/, '$1 $2-1').replace(/^deg$/, 'degree');

const cases = PARAMETER_ROWS.flatMap((row) => row.codes.map((code) => ({ code, row })));

describe.each(cases)('$row.quantity, $row.variant, $row.part, $row.reading: $code', ({ code, row }) => {
  const found = tableRow(row, code);

  it('stands in its table under a name of the quantity', () => {
    expect(found).toBeDefined();
    expect(found?.[0]).toMatch(NAMES[row.quantity].says);
    expect(found?.[0]).not.toMatch(NAMES[row.quantity].saysNot);
  });

  it('is a direction, a component or a size as its row says', () => {
    const name = found?.[0] ?? '';
    expect(/direction/i.test(name)).toBe(row.part === 'direction');
    expect(/u-component|eastward/i.test(name)).toBe(row.part === 'u');
    expect(/v-component|northward/i.test(name)).toBe(row.part === 'v');
  });

  it('is humidity itself, or a dew point where its row says so', () => {
    expect(/dewpoint/i.test(found?.[0] ?? '')).toBe(row.part === 'dewPoint');
  });

  it('converts from its unit: a sum of a rate has the unit of the rate times seconds', () => {
    const unit = oneForm(found?.[1] ?? '');
    const coded = row.reading === 'sum' ? unit.replace(/ s-1$/, '') : unit;
    const expected = UNITS[row.quantity][coded];
    expect([unit, expected === undefined]).toEqual([unit, false]);
    expect(Math.abs(row.toUnit(1) - (expected ?? Number.NaN))).toBeLessThan(1e-9);
    // Rain: sums are never rates, nor rates sums.
    const isRate = row.quantity === 'rain' && coded.endsWith(' s-1');
    expect(isRate).toBe(row.quantity === 'rain' && row.reading !== 'sum');
  });
});

describe('table of quantities', () => {
  it('has local numbers with their centre only', () => {
    const isLocal = (code: string): boolean => {
      const number = Number(code.split('/').at(-1));
      return code.startsWith('2') ? number >= 192 : !code.includes('wmo') || number >= 128;
    };
    const local = cases.filter(({ code }) => isLocal(code));
    expect(local.length).toBeGreaterThan(20);
    expect(local.filter(({ row }) => row.centreCode === null)).toEqual([]);
  });

  it('has no code twice for the same quantity, surface and reading', () => {
    const keys = cases.map(({ code, row }) =>
      [code, row.quantity, row.reading, row.centreCode, row.part, JSON.stringify(row.surfaces)].join(' '),
    );
    expect(new Set(keys).size).toBe(keys.length);
  });
});
