/** Second-order packing against ecCodes' values, against messages built from the standard's text, and its named refusals. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { statedNumbersFault } from '../../lib/grib/packing/second-order/edition-1.ts';
import type { Problem } from '../../lib/result/index.ts';
import { octet1, viewSection } from '../../lib/grib/section.ts';
import { readExpected, worstDifference } from './expected-values.ts';
import { type OpenMessage, openMessage, place, unpackNumbers, unpackValues } from './second-order-messages.ts';
import { secondOrderMessage, type WrittenField, type WrittenGroup } from './second-order-writer.ts';
import { longOrShort } from '../long-run.ts';

const samples = readExpected('second-order');

function sample(file: string): Uint8Array {
  const found = samples.find((each) => each.file === file);
  if (found === undefined) throw new Error(`${file} is missing`);
  return found.bytes.slice();
}

/** A message with octets of its Section 4, or of Section 5 in edition 2, replaced; octets count from 1. */
function altered(file: string, octet: number, octets: readonly number[]): OpenMessage {
  const bytes = sample(file);
  bytes.set(octets, openMessage(bytes).representation.startIndex + octet - 1);
  return openMessage(bytes);
}

/** Bits from last to first. */
const turnedOctet = (octet: number): number =>
  [0, 1, 2, 3, 4, 5, 6, 7].reduce((turned, bit) => turned | (((octet >> bit) & 1) << (7 - bit)), 0);

function problemOf(message: OpenMessage): Problem {
  const numbers = unpackNumbers(message);
  if ('remedy' in numbers) return numbers;
  throw new Error('unpacked without a problem');
}

describe('unpackSecondOrder', () => {
  it.each(samples)('$file: the values of ecCodes', ({ bytes, values }) => {
    const found = unpackValues(openMessage(bytes));
    if ('remedy' in found) throw new Error(found.what);
    // Scaling may round differently in the last place; the whole numbers are exact.
    expect(worstDifference(found, values)).toBeLessThanOrEqual(Number.EPSILON);
  });

  it('samples: both editions, orders 0 to 3, with and without bitmap are among them', () => {
    expect(samples.length).toBe(24);
  });

  it('no point has a value: all missing, whatever the groups say', () => {
    const message = openMessage(sample('order-2-masked.grib1'));
    message.bytes.fill(0, (message.bitmap?.startIndex ?? 0) + 6, message.data.startIndex);
    expect(unpackNumbers(message)).toEqual(new Float64Array(message.pointCount).fill(NaN));
  });

  it('template 5.50001, 0 bits per value: zeros, with the descriptors left out', () => {
    const message = altered('template-50001-order-0.grib2', 20, [0]);
    const representation = viewSection(message.bytes, 5, {
      startIndex: message.representation.startIndex,
      lengthOctets: 20,
    });
    expect(unpackNumbers({ ...message, representation })).toEqual(new Float64Array(message.pointCount));
  });
});

/** Rows or runs of random numbers, in the smallest width that holds them, or 16 bits for all. */
const field = fc
  .record({
    ni: fc.integer({ min: 1, max: 9 }),
    nj: fc.integer({ min: 1, max: 7 }),
    hasMask: fc.boolean(),
    hasSecondaryBitmap: fc.boolean(),
    hasDifferentWidths: fc.boolean(),
    numbers: fc.array(fc.integer({ min: 0, max: 0xffff }), { minLength: 63, maxLength: 63 }),
    // Points that have a value, and points at which a run begins.
    present: fc.array(fc.boolean(), { minLength: 63, maxLength: 63 }),
    begins: fc.array(fc.boolean(), { minLength: 63, maxLength: 63 }),
  })
  .map(({ ni, nj, hasMask, numbers, present, begins, ...flags }) => {
    const mask = hasMask ? present.slice(0, ni * nj) : null;
    const points = numbers.slice(0, ni * nj).map((value, i) => ({ i, value }));
    const held = points.filter(({ i }) => mask === null || mask[i] === true);
    const rows = Array.from({ length: nj }, (_, row) => held.filter(({ i }) => Math.floor(i / ni) === row));
    const runs: (typeof held)[] = [];
    for (const point of held) {
      if (runs.length === 0 || begins[point.i] === true) runs.push([]);
      runs.at(-1)?.push(point);
    }
    const groups = (flags.hasSecondaryBitmap ? runs : rows).map((run) =>
      groupOf(
        run.map(({ value }) => value),
        flags.hasDifferentWidths,
      ),
    );
    const written: WrittenField = { ni, nj, mask, groups, referenceBits: 16, ...flags };
    return { written, expected: points.map(({ i, value }) => (mask === null || mask[i] === true ? value : null)) };
  });

function groupOf(numbers: readonly number[], hasDifferentWidths: boolean): WrittenGroup {
  const reference = numbers.length === 0 ? 0 : Math.min(...numbers);
  const range = Math.max(0, ...numbers.map((number) => number - reference));
  return { reference, numbers, widthBits: hasDifferentWidths ? 32 - Math.clz32(range) : 16 };
}

describe('layouts of the standard', () => {
  it('any field by rows or with a secondary bitmap, one width or many, masked or not: its numbers come back', () => {
    fc.assert(
      fc.property(field, ({ written, expected }) => {
        const numbers = unpackNumbers(openMessage(secondOrderMessage(written)));
        if ('remedy' in numbers) throw new Error(numbers.what);
        expect(worstDifference(numbers, expected)).toBe(0);
      }),
      { seed: 20_261_125, numRuns: longOrShort(400, 150) },
    );
  });

  it.each([
    ['first bit not set', [0x04]],
    ['one mark more', [0x87]],
  ])('secondary bitmap, %s: refused', (_, octets) => {
    // Nine widths stand in octets 22 to 30; the first two groups have 5 and 1 values: the bitmap begins 1000 0110.
    const message = openMessage(sample('runs.grib1'));
    expect(octet1(message.data, 31)).toBe(0x86);
    expect(problemOf(altered('runs.grib1', 31, octets)).code).toBe('grib.groups-inconsistent');
  });

  it('by rows, as many first-order values as rows with a value, one row empty: refused', () => {
    expect(problemOf(altered('rows-masked.grib1', 17, [0, 6])).code).toBe('grib.groups-inconsistent');
  });
});

describe('refusals', () => {
  it.each([
    ['a matrix at each point', 'order-2.grib1', 14, 0x5a, 'matrix'],
    ['a reserved flag', 'order-2.grib1', 14, 0x9a, 'reserved'],
    ['extended with a secondary bitmap', 'order-2.grib1', 14, 0x3a, 'secondary bitmap'],
    ['extended with one width', 'order-2.grib1', 14, 0x0a, 'one width'],
    ['rows in boustrophedonic order', 'rows.grib1', 14, 0x14, 'boustrophedonic'],
    ['rows with differences', 'rows.grib1', 14, 0x11, 'differencing'],
    ['reserved flags of template 5.50002', 'template-50002.grib2', 32, 0x40, 'reserved'],
    ['order 4 in template 5.50001', 'template-50001-order-3.grib2', 32, 4, 'order'],
    ['order 4 in template 5.50002', 'template-50002.grib2', 33, 4, 'order'],
  ])('%s: unsupported, by name and octet', (_, file, ...[octet, value, name]) => {
    const problem = problemOf(altered(file, octet, [value]));
    expect(problem.code).toBe('grib.packing-unsupported');
    expect(problem.what).toContain(name);
    expect(problem.where).toContain(`octet ${octet}`);
  });

  it.each([
    ['first-order values', 'order-2.grib1', 11],
    ['entries of widths', 'order-2.grib1', 22],
    ['entries of lengths', 'order-2.grib1', 23],
    ['differencing descriptors', 'order-2.grib1', 26],
    ['second-order values of a row', 'rows.grib1', 22],
    ['first-order values in edition 2', 'template-50002.grib2', 21],
    ['entries of lengths in edition 2', 'template-50002.grib2', 31],
    ['differencing descriptors in edition 2', 'template-50002.grib2', 34],
  ])('%s of 33 bits: refused', (_, file, octet) => {
    expect(problemOf(altered(file, octet, [33])).code).toBe('grib.bits-unsupported');
  });

  it.each([
    ['N1', 13],
    ['N2', 16],
    ['P1', 18],
    ['P2', 20],
    ['the octet of the lengths', 25],
  ])('%s one too large: refused, since the layout is not as understood', (_, octet) => {
    const message = openMessage(sample('order-2.grib1'));
    const value = octet1(message.data, octet) + 1;
    expect(problemOf(altered('order-2.grib1', octet, [value])).code).toMatch(
      /^grib\.(groups-inconsistent|data-too-short)$/,
    );
  });

  it.each([
    ['saturated', 65_535, true],
    ['cut to two octets', 4464, true],
    ['something else', 4465, false],
  ])('a number above 65535, %s: accepted %s', (_, stated, isAccepted) => {
    const bytes = Uint8Array.of(stated >> 8, stated & 255);
    const section = viewSection(bytes, 4, { startIndex: 0, lengthOctets: 2 });
    const fault = statedNumbersFault(place, section, [{ octet: 1, name: 'N2', value: 70_000 }]);
    expect(fault === null).toBe(isAccepted);
  });

  it.each(['boustrophedonic.grib1', 'template-50002-boustrophedonic.grib2', 'rows.grib1', 'rows-masked.grib1'])(
    '%s on a grid of unequal rows: unsupported',
    (file) => {
      const message = openMessage(sample(file));
      expect(problemOf({ ...message, linePointCount: null }).code).toBe('grib.packing-unsupported');
      expect(problemOf({ ...message, linePointCount: 5 }).code).toBe('grib.grid-inconsistent');
    },
  );

  it.each(['order-2.grib1', 'order-3-masked.grib1', 'runs-masked.grib1', 'template-50002-masked.grib2'])(
    '%s on a grid of unequal rows: unpacked, since rows do not matter',
    (file) => {
      const message = openMessage(sample(file));
      expect(unpackNumbers({ ...message, linePointCount: null })).toEqual(unpackNumbers(message));
    },
  );

  it.each(['boustrophedonic-masked.grib1', 'template-50002-boustrophedonic-masked.grib2'])(
    '%s with its bitmap in the order of the grid: unsupported, values are not put in the wrong places',
    (file) => {
      const message = openMessage(sample(file));
      const bitmapIndex = (message.bitmap?.startIndex ?? 0) + 6;
      // 24 columns are three octets: the second of every two rows is turned.
      for (let start = bitmapIndex + 3; start + 3 <= bitmapIndex + 54; start += 6) {
        message.bytes.set(
          [2, 1, 0].map((at) => turnedOctet(message.bytes[start + at] ?? 0)),
          start,
        );
      }
      expect(problemOf(message).code).toBe('grib.bitmap-unsupported');
    },
  );
});
