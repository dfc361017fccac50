/** Edition 1, octet by octet: WMO-No. 306, Volume I.1, FM 92-VIII, code tables 3, 4, 5, 6, 8, 11. */
import { describe, expect, it } from 'vitest';
import { decodeField, scanGrib } from '../../lib/grib/index.ts';
import { edition1Data, edition1Grid, edition1Message, edition1Product, replaced } from './edition-1-message.ts';
import { codesOf, MS_PER_H, REFERENCE_EPOCH_MS } from './sample-message.ts';

const fieldOf = (bytes: Uint8Array) => {
  const field = scanGrib(bytes, 'test.grib1').fields[0];
  if (field === undefined) throw new Error('no field');
  return field;
};
const valuesOf = (bytes: Uint8Array): number[] => {
  const values = decodeField(bytes, fieldOf(bytes));
  return values.ok ? Array.from(values.value) : [];
};
const withTime = (octets18to21: number[]): Uint8Array =>
  edition1Message({ product: replaced(edition1Product, 18, octets18to21) });

/** Equal but for the last place of a double: values are multiplied by 10^-D. */
function expectValues(ours: readonly number[], expected: readonly number[]): void {
  expect(ours.length).toBe(expected.length);
  for (const [i, value] of expected.entries()) expect(ours[i]).toBeCloseTo(value, 12);
}

describe('edition 1', () => {
  it('values: (R + X · 2^E) / 10^D', () => {
    expectValues(valuesOf(edition1Message()), [294, 294.1, 294.2, 294.3, 294.4, 319]);
  });

  it('binary factor −1: half steps', () => {
    const data = replaced(edition1Data, 5, [0x80, 0x01]);
    expectValues(valuesOf(edition1Message({ data })), [294, 294.05, 294.1, 294.15, 294.2, 306.5]);
  });

  it('0 bits: a constant field of R / 10^D', () => {
    const data = replaced(edition1Data.slice(0, 12), 11, [0]);
    expect(valuesOf(edition1Message({ data: replaced(data, 1, [0, 0, 12]) }))).toEqual([294, 294, 294, 294, 294, 294]);
  });

  it('bitmap 101101: missing where it says 0', () => {
    const product = replaced(edition1Product, 8, [0xc0]);
    const bitmap = [0, 0, 8, 10, 0, 0, 0b1011_0100, 0];
    expect(valuesOf(edition1Message({ product, bitmap }))).toEqual([294, NaN, 294.1, 294.2, NaN, 294.3]);
  });

  it('header: parameter, level, grid with signed corners', () => {
    expect(fieldOf(edition1Message())).toMatchObject({
      edition: 1,
      parameter: { edition: 1, centre: 7, tableVersion: 2, number: 80 },
      level: { first: { typeCode: 1, value: 0 }, second: null },
      referenceEpochMs: REFERENCE_EPOCH_MS,
      grid: { first: { lat: -30, lon: 178 }, last: { lat: -29, lon: 180 }, iIncrementDeg: 1, jIncrementDeg: 1 },
      ensemble: null,
      support: null,
    });
  });

  it('layer of two pressures: top and bottom', () => {
    const product = replaced(edition1Product, 10, [101, 50, 100]);
    expect(fieldOf(edition1Message({ product })).level).toEqual({
      first: { typeCode: 101, value: 50 },
      second: { typeCode: 101, value: 100 },
    });
  });

  it('year 100 of century 20: the year 2000', () => {
    const product = replaced(replaced(edition1Product, 13, [100]), 25, [20]);
    expect(fieldOf(edition1Message({ product })).referenceEpochMs).toBe(Date.UTC(2000, 4, 27, 12));
  });

  it('control of an ensemble of centre 98: type 10, number 0 of 51', () => {
    const local = [1, 1, 10, 0x04, 0x0b, 0x30, 0x30, 0x30, 0x31, 0, 51, 0];
    const head = replaced(replaced(edition1Product, 1, [0, 0, 52]), 5, [98]);
    const product = [...head, ...Array.from({ length: 12 }, () => 0), ...local];
    expect(fieldOf(edition1Message({ product })).ensemble).toMatchObject({ kind: 'control', memberCount: 51 });
    const seventh = replaced(replaced(product, 43, [11]), 50, [7]);
    const { ensemble } = fieldOf(edition1Message({ product: seventh }));
    expect(ensemble).toMatchObject({ kind: 'perturbed', perturbationNumber: 7 });
  });
});

describe('edition 1 times, hours after the reference time', () => {
  const instant = (hours: number) => ({ kind: 'instant', validEpochMs: REFERENCE_EPOCH_MS + hours * MS_PER_H });
  const interval = (statistic: string, hours: { from: number; to: number }) => ({
    kind: 'interval',
    startEpochMs: REFERENCE_EPOCH_MS + hours.from * MS_PER_H,
    endEpochMs: REFERENCE_EPOCH_MS + hours.to * MS_PER_H,
    statistic,
    statisticCode: null,
  });

  it.each([
    ['indicator 0, P1 6 h: instant', [1, 6, 0, 0], instant(6)],
    ['indicator 1: an analysis, P1 does not count', [1, 6, 0, 1], instant(0)],
    ['indicator 2: range', [1, 3, 6, 2], interval('unspecified', { from: 3, to: 6 })],
    ['indicator 3: average', [1, 0, 6, 3], interval('average', { from: 0, to: 6 })],
    ['indicator 4: accumulation', [1, 0, 12, 4], interval('accumulation', { from: 0, to: 12 })],
    ['indicator 5: difference', [1, 3, 6, 5], interval('difference', { from: 3, to: 6 })],
    ['indicator 10: P1 over two octets', [1, 1, 8, 10], instant(264)],
    ['unit 0: minutes', [0, 90, 0, 0], instant(1.5)],
    ['unit 2: days', [2, 3, 0, 0], instant(72)],
    ['unit 10: 3 hours', [10, 40, 0, 0], instant(120)],
    ['unit 11: 6 hours', [11, 4, 0, 0], instant(24)],
    ['unit 12: 12 hours', [12, 4, 0, 0], instant(48)],
    ['unit 13: quarter hours', [13, 6, 0, 0], instant(1.5)],
    ['unit 254: seconds', [254, 90, 0, 0], instant(0.025)],
  ])('%s', (_, octets, validity) => {
    expect(fieldOf(withTime(octets)).validity).toEqual(validity);
  });

  it.each([
    ['unit 3 (months)', withTime([3, 1, 0, 0]), 'grib.time-unit-unsupported'],
    ['indicator 113 (average of forecasts)', withTime([1, 0, 6, 113]), 'grib.time-range-unsupported'],
    ['P2 before P1', withTime([1, 6, 3, 4]), 'grib.interval-reversed'],
    ['month 13', edition1Message({ product: replaced(edition1Product, 14, [13]) }), 'grib.date-impossible'],
    ['gnomonic grid', edition1Message({ grid: replaced(edition1Grid, 6, [2]) }), 'grib.grid-unsupported'],
    [
      'thinned grid without a list',
      edition1Message({ grid: replaced(edition1Grid, 7, [0xff, 0xff]) }),
      'grib.grid-unsupported',
    ],
    [
      'no grid section',
      edition1Message({ product: replaced(edition1Product, 8, [0]), grid: null }),
      'grib.grid-unsupported',
    ],
    ['rows against the scan', edition1Message({ grid: replaced(edition1Grid, 28, [0]) }), 'grib.grid-inconsistent'],
    [
      'grid section of 12 octets',
      edition1Message({ grid: [0, 0, 12, ...edition1Grid.slice(3, 12)] }),
      'grib.section-too-short',
    ],
    [
      'second-order packing in a short section',
      edition1Message({ data: replaced(edition1Data, 4, [0x40]) }),
      'grib.section-too-short',
    ],
    ['spherical harmonics', edition1Message({ data: replaced(edition1Data, 4, [0x80]) }), 'grib.packing-unsupported'],
    ['40 bits', edition1Message({ data: replaced(edition1Data, 11, [40]) }), 'grib.bits-unsupported'],
    [
      'binary factor −32767',
      edition1Message({ data: replaced(edition1Data, 5, [0xff, 0xff]) }),
      'grib.scale-impossible',
    ],
    [
      'bitmap from a catalogue',
      edition1Message({ product: replaced(edition1Product, 8, [0xc0]), bitmap: [0, 0, 6, 0, 0, 3] }),
      'grib.bitmap-unsupported',
    ],
    [
      'data section of 5 octets',
      edition1Message({ data: replaced(edition1Data, 1, [0, 0, 5]) }),
      'grib.section-broken',
    ],
    ['no 7777', edition1Message({ end: [0, 0, 0, 0] }), 'grib.end-missing'],
  ])('%s', (_, bytes, code) => {
    expect(codesOf(bytes)).toContain(code);
  });

  it('fewer numbers than points: said when the values are asked for', () => {
    const bytes = edition1Message({ data: replaced(edition1Data, 1, [0, 0, 15]).slice(0, 15) });
    const values = decodeField(bytes, fieldOf(bytes));
    expect(values).toMatchObject({ ok: false, problems: [{ code: 'grib.data-too-short' }] });
  });
});

describe('messages above 16 777 215 octets', () => {
  it('total length counted in 120 octets: Section 4 reaches to the end', () => {
    // 3 × 2 points are enough: total 120 · n − len4 + 4, where the stored length of Section 4 is the padding.
    const short = edition1Message();
    const dataStart = 8 + edition1Product.length + edition1Grid.length;
    const units = Math.ceil((short.length - 4 + 1) / 120);
    const trueDataOctets = short.length - 4 - dataStart;
    const storedLength = units * 120 - (dataStart + trueDataOctets);
    const large = short.slice();
    large.set([0x80, 0, units], 4);
    large.set([0, 0, storedLength], dataStart);
    const field = fieldOf(large);
    expect(field.location.data.lengthOctets).toBe(trueDataOctets);
    expect(valuesOf(large)).toEqual(valuesOf(short));
  });
});
