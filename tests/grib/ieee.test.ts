/** Template 5.4 against ecCodes' values, and its refusals. */
import { describe, expect, it } from 'vitest';
import { spread } from '../../lib/grib/bitmap.ts';
import { ieeeObstacle, unpackIeee } from '../../lib/grib/packing/ieee.ts';
import { viewSection } from '../../lib/grib/section.ts';
import { readExpected, worstDifference } from './expected-values.ts';
import { openMessage, place } from './second-order-messages.ts';

const samples = readExpected('ieee');

function sample(file: string): Uint8Array {
  const found = samples.find((each) => each.file === file);
  if (found === undefined) throw new Error(`${file} is missing`);
  return found.bytes.slice();
}

describe('unpackIeee', () => {
  it.each(samples)('$file: the values of ecCodes, exactly', ({ bytes, values }) => {
    const { bitmap, ...message } = openMessage(bytes);
    const presentCount = values.filter((value) => value !== null).length;
    const found = new Float64Array(values.length);
    expect(unpackIeee(place, message, found.subarray(values.length - presentCount))).toBeNull();
    if (bitmap !== null) spread(bitmap, found, presentCount);
    expect(worstDifference(found, values)).toBe(0);
  });

  it.each(samples)('$file, data cut at every octet: refused', ({ bytes, values }) => {
    const message = openMessage(bytes);
    const { startIndex } = message.data;
    const room = new Float64Array(values.filter((value) => value !== null).length);
    for (let lengthOctets = 0; lengthOctets < message.data.lengthOctets; lengthOctets++) {
      const data = viewSection(bytes, 7, { startIndex, lengthOctets });
      expect(unpackIeee(place, { ...message, data }, room)).toHaveProperty('code', 'grib.data-too-short');
    }
  });

  it.each([
    ['32 bits, infinity', 'ieee-32.grib2', 4, [0x7f, 0x80, 0, 0]],
    ['32 bits, minus infinity', 'ieee-32.grib2', 4, [0xff, 0x80, 0, 0]],
    ['32 bits, not a number', 'ieee-32.grib2', 4, [0x7f, 0xc0, 0, 0]],
    ['64 bits, infinity', 'ieee-64.grib2', 8, [0x7f, 0xf0, 0, 0, 0, 0, 0, 0]],
    ['64 bits, all ones', 'ieee-64.grib2', 8, [255, 255, 255, 255, 255, 255, 255, 255]],
  ])('%s as the third number: the field is refused, at its octet', (_, file, numberOctets, octets) => {
    const bytes = sample(file);
    const message = openMessage(bytes);
    bytes.set(octets, message.data.startIndex + 5 + 2 * numberOctets);
    const problem = unpackIeee(place, message, new Float64Array(message.pointCount));
    expect(problem?.code).toBe('grib.value-not-finite');
    expect(problem?.where).toContain(`section 7, octet ${6 + 2 * numberOctets}`);
  });

  it('32 bits, the greatest and the smallest numbers: kept', () => {
    const bytes = sample('ieee-32.grib2');
    const message = openMessage(bytes);
    bytes.set([0x7f, 0x7f, 0xff, 0xff, 0x80, 0, 0, 1], message.data.startIndex + 5);
    const values = new Float64Array(message.pointCount);
    expect(unpackIeee(place, message, values)).toBeNull();
    expect([...values.subarray(0, 2)]).toEqual([(2 - 2 ** -23) * 2 ** 127, -(2 ** -149)]);
  });
});

describe('ieeeObstacle', () => {
  it.each([0, 3, 4, 255])('precision %d: unsupported, by name', (precision) => {
    const bytes = sample('ieee-32.grib2');
    const { representation } = openMessage(bytes);
    bytes[representation.startIndex + 11] = precision;
    const problem = ieeeObstacle(place, representation);
    expect(problem?.code).toBe('grib.packing-unsupported');
    expect(problem?.what).toContain(precision === 3 ? '128 bits' : 'reserved');
  });

  it('Section 5 of 11 octets: too short', () => {
    const { bytes, representation } = openMessage(sample('ieee-32.grib2'));
    const { startIndex } = representation;
    expect(ieeeObstacle(place, viewSection(bytes, 5, { startIndex, lengthOctets: 11 }))?.code).toBe(
      'grib.section-too-short',
    );
  });
});
