/** Numbers from literal octets. Rules: WMO-No. 306, regulations 92.1.5 (sign and magnitude), 92.1.7 (IEEE), FM 92-VIII (IBM). */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { readRun, viewForRuns } from '../../lib/grib/bits.ts';
import { scaleRun } from '../../lib/grib/packing/simple-run.ts';
import {
  ibm4,
  ieee4,
  octet2,
  octet3,
  octet4,
  signed1,
  signed2,
  signed3,
  signed4,
  viewSection,
} from '../../lib/grib/section.ts';
import { longOrShort } from '../long-run.ts';

const section = (...octets: number[]) =>
  viewSection(Uint8Array.from(octets), 1, { startIndex: 0, lengthOctets: octets.length });

describe('sign and magnitude', () => {
  it.each([
    ['one octet, 0x03: 3', signed1(section(0x03), 1), 3],
    ['one octet, 0x83: −3, not −125', signed1(section(0x83), 1), -3],
    ['one octet, 0x80: 0, not −128', signed1(section(0x80), 1), 0],
    ['one octet, 0xff: −127', signed1(section(0xff), 1), -127],
    ['two octets, 0x800a: −10', signed2(section(0x80, 0x0a), 1), -10],
    ['two octets, 0x7fff: 32767', signed2(section(0x7f, 0xff), 1), 32_767],
    ['three octets, 0x80ea60: −60000 (60° S in edition 1)', signed3(section(0x80, 0xea, 0x60), 1), -60_000],
    ['four octets, 0x80602160: −6300000 (6.3° S)', signed4(section(0x80, 0x60, 0x21, 0x60), 1), -6_300_000],
    ['four octets, 0x0510ff40: 85000000', signed4(section(0x05, 0x10, 0xff, 0x40), 1), 85_000_000],
    ['negative zero: 0 with a plus', Object.is(signed4(section(0x80, 0, 0, 0), 1), 0), true],
  ])('%s', (_, ours, expected) => {
    expect(ours).toBe(expected);
  });
});

describe('unsigned', () => {
  it.each([
    ['two octets', octet2(section(0xff, 0xfe), 1), 65_534],
    ['three octets', octet3(section(0x01, 0x00, 0x02), 1), 65_538],
    ['four octets, first bit set', octet4(section(0xff, 0xff, 0xff, 0xfe), 1), 4_294_967_294],
    ['second octet of a section is octet 2', octet2(section(9, 0, 7), 2), 7],
  ])('%s', (_, ours, expected) => {
    expect(ours).toBe(expected);
  });
});

describe('floating point', () => {
  it('IEEE 0xc0490fdb: −π in single precision', () => {
    expect(ieee4(section(0xc0, 0x49, 0x0f, 0xdb), 1)).toBe(Math.fround(-Math.PI));
  });

  it.each([
    // IBM System/360 Principles of Operation, as commonly worked: −118.625 = C2 76 A0 00.
    ['0xc276a000: −118.625', [0xc2, 0x76, 0xa0, 0x00], -118.625],
    ['0x41100000: 1', [0x41, 0x10, 0x00, 0x00], 1],
    ['0x00000000: 0', [0, 0, 0, 0], 0],
    ['0x46186a00: 1600000', [0x46, 0x18, 0x6a, 0x00], 0x186a00],
  ])('IBM %s', (_, octets, expected) => {
    expect(ibm4(section(...octets), 1)).toBe(expected);
  });
});

/** The definition, in slow big integers: bits `start` to `start + width` of the octets, read as one binary number. */
function bitsByDefinition(octets: Uint8Array, startBitIndex: number, widthBits: number): number {
  const text = Array.from(octets, (octet) => octet.toString(2).padStart(8, '0')).join('');
  return widthBits === 0 ? 0 : Number(BigInt(`0b${text.slice(startBitIndex, startBitIndex + widthBits)}`));
}

const runs = fc.record({
  octets: fc.uint8Array({ minLength: 40, maxLength: 60 }),
  startBitIndex: fc.integer({ min: 0, max: 31 }),
  widthBits: fc.integer({ min: 0, max: 32 }),
  count: fc.integer({ min: 1, max: 9 }),
});
/** The whole array, so that the view has to be padded. */
const viewOf = (octets: Uint8Array): DataView => viewForRuns(octets, { startIndex: 0, lengthOctets: octets.length });

describe('readRun', () => {
  it('any width from 0 to 32, any start: as the definition says', () => {
    fc.assert(
      fc.property(runs, ({ octets, startBitIndex, widthBits, count }) => {
        const into = new Float64Array(count + 2).fill(-1);
        const range = { fromIndex: 1, toIndex: count + 1, addedCount: 7 };
        readRun({ view: viewOf(octets), startBitIndex, widthBits }, into, range);
        const expected = Array.from(
          { length: count },
          (_, i) => bitsByDefinition(octets, startBitIndex + i * widthBits, widthBits) + 7,
        );
        expect(Array.from(into)).toEqual([-1, ...expected, -1]);
      }),
      { seed: 20_260_527, numRuns: longOrShort(500, 200) },
    );
  });

  it('a run that ends in the last octet of the file: the same as with octets behind it', () => {
    const octets = Uint8Array.from({ length: 33 }, (_, i) => (i * 89 + 17) % 256);
    const place = { startIndex: 2, lengthOctets: 31 };
    const longer = new Uint8Array(50).fill(255);
    longer.set(octets);
    for (let widthBits = 1; widthBits <= 31; widthBits++) {
      const count = Math.floor((31 * 8) / widthBits);
      const read = (bytes: Uint8Array): number[] => {
        const into = new Float64Array(count);
        const run = { view: viewForRuns(bytes, place), startBitIndex: 0, widthBits };
        readRun(run, into, { fromIndex: 0, toIndex: count, addedCount: 0 });
        return Array.from(into);
      };
      expect(read(octets)).toEqual(read(longer));
    }
  });
});

describe('scaleRun', () => {
  it('any width from 1 to 32, any count: each number times step plus reference, times factor', () => {
    const aligned = fc.record({
      octets: fc.uint8Array({ minLength: 140, maxLength: 160 }),
      startIndex: fc.integer({ min: 0, max: 9 }),
      widthBits: fc.integer({ min: 1, max: 32 }),
      count: fc.integer({ min: 1, max: 32 }),
    });
    fc.assert(
      fc.property(aligned, ({ octets, startIndex, widthBits, count }) => {
        const values = new Float64Array(count);
        scaleRun({ view: viewOf(octets), startIndex, widthBits }, values, { reference: -3, step: 0.5, factor: 0.25 });
        const expected = Array.from(
          { length: count },
          (_, i) => (bitsByDefinition(octets, startIndex * 8 + i * widthBits, widthBits) * 0.5 - 3) * 0.25,
        );
        expect(Array.from(values)).toEqual(expected);
      }),
      { seed: 20_260_528, numRuns: longOrShort(500, 200) },
    );
  });
});
