/** Section 4 of edition 2, octet by octet: templates 4.0, 4.1, 4.2, 4.8, 4.11, 4.12; code tables 4.4, 4.5, 4.6, 4.7, 4.10. */
import { describe, expect, it } from 'vitest';
import { type GribField, scanGrib } from '../../lib/grib/index.ts';
import { altered, MS_PER_H, REFERENCE_EPOCH_MS, smallMessage } from './sample-message.ts';

const fieldOf = (bytes: Uint8Array): GribField => {
  const field = scanGrib(bytes, 'test').fields[0];
  if (field === undefined) throw new Error('no field');
  return field;
};
const small = smallMessage();
const member = smallMessage({ ensemble: { typeCode: 3, perturbationNumber: 7, memberCount: 31 } });
const inSection4 = (message: Uint8Array, octet: number, octets: readonly number[]): Uint8Array =>
  altered(message, { sectionNumber: 4, octet }, octets);

describe('forecast time', () => {
  it.each([
    ['unit 0: minutes', [0, 0, 0, 0, 90], 1.5],
    ['unit 1: hours', [1, 0, 0, 0, 90], 90],
    ['unit 2: days', [2, 0, 0, 0, 3], 72],
    ['unit 10: 3 hours', [10, 0, 0, 0, 3], 9],
    ['unit 11: 6 hours', [11, 0, 0, 0, 3], 18],
    ['unit 12: 12 hours', [12, 0, 0, 0, 3], 36],
    ['unit 13: seconds', [13, 0, 0, 0x0e, 0x10], 1],
    ['negative, sign and magnitude: before the reference time', [1, 0x80, 0, 0, 6], -6],
  ])('%s', (_, octets, hours) => {
    expect(fieldOf(inSection4(small, 18, octets)).validity).toEqual({
      kind: 'instant',
      validEpochMs: REFERENCE_EPOCH_MS + hours * MS_PER_H,
    });
  });
});

describe('fixed surfaces', () => {
  it.each([
    ['103, 10 m', [103, 0, 0, 0, 0, 10], { typeCode: 103, value: 10 }],
    ['scale factor 1: 0.5', [160, 1, 0, 0, 0, 5], { typeCode: 160, value: 0.5 }],
    ['scale factor −2 (0x82): 850 hPa in Pa', [100, 0x82, 0, 0, 0x03, 0x52], { typeCode: 100, value: 85_000 }],
    ['scale factor 0xff: no value, not 10^127', [1, 0xff, 0, 0, 0, 0], { typeCode: 1, value: null }],
    ['value all ones: no value', [101, 0, 255, 255, 255, 255], { typeCode: 101, value: null }],
    ['negative value: −2 m', [102, 0, 0x80, 0, 0, 2], { typeCode: 102, value: -2 }],
    ['type 255: no surface', [255, 255, 255, 255, 255, 255], null],
  ])('%s', (_, octets, first) => {
    expect(fieldOf(inSection4(small, 23, octets)).level.first).toEqual(first);
  });
});

describe('ensembles', () => {
  it.each([
    ['type 0, high-resolution control', [0, 0, 31], 'control'],
    ['type 1, low-resolution control', [1, 0, 31], 'control'],
    ['type 2, negatively perturbed', [2, 4, 31], 'perturbed'],
    ['type 3, positively perturbed', [3, 4, 31], 'perturbed'],
    ['type 192 (local), member 40', [192, 40, 40], 'perturbed'],
    ['type 255, number 0', [255, 0, 51], 'control'],
    ['type 255, number 50', [255, 50, 51], 'perturbed'],
  ])('%s', (_, octets, kind) => {
    const [typeCode, perturbationNumber, memberCount] = octets;
    const { ensemble } = fieldOf(inSection4(member, 35, octets));
    expect(ensemble).toEqual({ kind, typeCode, perturbationNumber, memberCount });
  });

  it('template 2: derived from all members', () => {
    const { derived, ensemble, support } = fieldOf(inSection4(inSection4(member, 8, [0, 2]), 35, [4, 31, 0]));
    expect({ derived, ensemble, support }).toEqual({
      derived: { code: 4, name: 'spread of all members', memberCount: 31 },
      ensemble: null,
      support: null,
    });
  });
});

describe('statistics', () => {
  const validity = {
    kind: 'interval',
    startEpochMs: REFERENCE_EPOCH_MS,
    endEpochMs: REFERENCE_EPOCH_MS + 6 * MS_PER_H,
  } as const;
  const rain = smallMessage({ validity: { ...validity, statistic: 'accumulation' } });

  it.each([
    [0, 'average'],
    [1, 'accumulation'],
    [2, 'maximum'],
    [3, 'minimum'],
    [4, 'difference'],
    [11, 'summation'],
    [200, 'other'],
  ])('number %i of code table 4.10: %s', (statisticCode, statistic) => {
    const field = fieldOf(inSection4(rain, 47, [statisticCode]));
    expect(field.validity).toEqual({ ...validity, statistic, statisticCode });
  });

  it('template 11: the interval block stands three octets later', () => {
    const ensemble = { typeCode: 3, perturbationNumber: 5, memberCount: 31 };
    const field = fieldOf(
      inSection4(smallMessage({ validity: { ...validity, statistic: 'maximum' }, ensemble }), 50, [3]),
    );
    expect(field).toMatchObject({ productTemplate: 11, validity: { ...validity, statistic: 'minimum' }, ensemble });
  });

  it('interval of no length at step 0: passed on as coded', () => {
    const empty = { ...validity, endEpochMs: validity.startEpochMs, statistic: 'accumulation' } as const;
    expect(fieldOf(smallMessage({ validity: empty })).validity).toEqual({ ...empty, statisticCode: 1 });
  });
});
