/** Headers in words; names and units: WMO-No. 306, code tables 4.2, 4.5 (edition 2), 2 and 3 (edition 1). */
import { describe, expect, it } from 'vitest';
import {
  formatGrid,
  formatLevel,
  formatMember,
  formatPacking,
  formatParameter,
  formatParameterCode,
  formatProductTemplate,
  formatValidity,
  type GribField,
  scanGrib,
  unitOfParameter,
} from '../../lib/grib/index.ts';
import { edition1Message } from './edition-1-message.ts';
import { readGoldenBytes } from './golden-files.ts';
import { altered, REFERENCE_EPOCH_MS, smallMessage } from './sample-message.ts';

const fieldOf = (bytes: Uint8Array, fieldNumber = 1): GribField => {
  const field = scanGrib(bytes, 'test').fields[fieldNumber - 1];
  if (field === undefined) throw new Error('no field');
  return field;
};
const golden = (file: string, fieldNumber = 1): GribField => fieldOf(readGoldenBytes(file), fieldNumber);
const small = fieldOf(smallMessage());
/** Product definition template 4.40, atmospheric chemical constituents. */
const notUnderstood = fieldOf(altered(smallMessage(), { sectionNumber: 4, octet: 8 }, [0, 40]));
const onSurface = (octets: readonly number[]): Uint8Array =>
  altered(smallMessage({ centre: 34 }), { sectionNumber: 4, octet: 23 }, octets);

type NamedRow = [string, GribField, [name: string, unit: string | null, code: string]];

describe('listing', () => {
  it.each([
    ['u wind', small, ['u-component of wind', 'm s-1', '0/2/2']],
    [
      'gust',
      fieldOf(smallMessage({ parameter: { discipline: 0, category: 2, number: 22 } })),
      ['Wind speed (gust)', 'm s-1', '0/2/22'],
    ],
    [
      'waves',
      fieldOf(smallMessage({ parameter: { discipline: 10, category: 0, number: 3 } })),
      ['Significant height of combined wind waves and swell', 'm', '10/0/3'],
    ],
    [
      'local number of centre 98',
      fieldOf(smallMessage({ centre: 98, parameter: { discipline: 0, category: 1, number: 193 } })),
      ['Total precipitation', 'm', '0/1/193'],
    ],
    [
      'the same number of another centre',
      fieldOf(smallMessage({ centre: 7, parameter: { discipline: 0, category: 1, number: 193 } })),
      ['Categorical freezing rain', 'code table 4.222', '0/1/193'],
    ],
    [
      'the same number of a centre whose table is not here',
      fieldOf(smallMessage({ centre: 34, parameter: { discipline: 0, category: 1, number: 193 } })),
      ['unknown parameter 0/1/193 (moisture) of centre 34 (Tokyo, Japan Meteorological Agency)', null, '0/1/193'],
    ],
    [
      'a discipline whose parameters are not here',
      fieldOf(smallMessage({ centre: 300, parameter: { discipline: 1, category: 0, number: 7 } })),
      ['unknown parameter 1/0/7 (hydrology) of centre 300', null, '1/0/7'],
    ],
    ['edition 1, table 2', fieldOf(edition1Message()), ['Water temperature', 'K', '2.80']],
    [
      'edition 1, waves',
      golden('gdaswave_cut.grib1', 3),
      ['Significant height of combined wind waves and swell', 'm', '2.100'],
    ],
  ] satisfies NamedRow[])('%s: name, unit, code', (_, field, told) => {
    expect([formatParameter(field), unitOfParameter(field), formatParameterCode(field.parameter)]).toEqual(told);
  });

  it.each([
    ['height', small, '10 m above ground'],
    ['surface', fieldOf(edition1Message()), 'surface'],
    ['layer', golden('soil_8vars.grib1', 3), '7 cm below land surface to 28 cm below land surface'],
    ['partition, surface type of centre 7', golden('gdaswave_cut.grib1', 4), '0 in an ordered sequence'],
    ['surface type of no table', fieldOf(onSurface([230, 0, 0, 0, 0, 3])), '3 of surface type 230'],
    ['not understood', notUnderstood, 'no level'],
  ])('level: %s', (_, field, expected) => {
    expect(formatLevel(field)).toBe(expected);
  });

  it('times: an instant, an interval, nothing', () => {
    expect(formatValidity(small)).toBe('2026-05-27T18:00Z');
    const validity = {
      kind: 'interval',
      startEpochMs: REFERENCE_EPOCH_MS,
      endEpochMs: REFERENCE_EPOCH_MS + 10_800_000,
      statistic: 'maximum',
    } as const;
    expect(formatValidity(fieldOf(smallMessage({ validity })))).toBe('maximum 2026-05-27T12:00Z to 2026-05-27T15:00Z');
    expect(formatValidity(notUnderstood)).toBe('valid time not understood');
  });

  it('members: control, numbered, derived, none', () => {
    const member = (perturbationNumber: number): GribField =>
      fieldOf(
        smallMessage({ ensemble: { typeCode: perturbationNumber === 0 ? 1 : 3, perturbationNumber, memberCount: 31 } }),
      );
    const negative = fieldOf(smallMessage({ ensemble: { typeCode: 2, perturbationNumber: 7, memberCount: 31 } }));
    const words = [member(0), member(7), negative, golden('pdt2_spread.grib2'), small].map(formatMember);
    expect(words).toEqual(['control', 'member 7', 'member 7 (negatively perturbed)', 'spread of all members', '']);
  });

  it('grid, packing, product', () => {
    expect(formatGrid(golden('gfs_1p00_f000_2msg.grib2'))).toBe('latitude/longitude 360 × 181, 1° × 1°');
    expect(formatGrid(golden('aqm_hi_mercator.grib2'))).toBe('Mercator 321 × 225, 0.023925°');
    expect(formatGrid(golden('hrrr_cfrzr_const.grib2'))).toBe('Lambert conformal 1799 × 1059, 3 km × 3 km');
    expect(formatGrid(golden('icon_global_tot_prec_const.grib2'))).toBe('unstructured');
    expect(formatPacking(small)).toBe('simple, 11 bit, bitmap');
    expect(formatPacking(golden('gfs_1p00_f000_2msg.grib2'))).toMatch(
      /^complex with spatial differencing, order 2, \d+ bit$/,
    );
    expect(formatProductTemplate(small)).toBe('4.0 analysis or forecast at a point in time');
    expect(formatProductTemplate(fieldOf(edition1Message()))).toBe('');
  });
});
