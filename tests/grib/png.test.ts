/** PNG images of template 5.41, written by the definitions of ISO/IEC 15948 in png-image.ts. Real files: golden.test.ts. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { unpackPng } from '../../lib/grib/packing/png/unpack.ts';
import { type ImageToWrite, writePng } from './png-image.ts';

const PLAIN = { reference: 0, step: 1, factor: 1 };

function unpacked(stream: Uint8Array, count: number): number[] | string {
  const values = new Float64Array(count);
  const fault = unpackPng(stream, { values, scale: PLAIN });
  return fault === null ? Array.from(values) : fault.what;
}

/** Rows of numbers as octets, each row filled up to a whole octet. */
function rowOctets(numbers: readonly number[], bits: number): number[] {
  const text = numbers.map((n) => n.toString(2).padStart(bits, '0')).join('');
  return (text.padEnd(Math.ceil(text.length / 8) * 8, '0').match(/.{8}/g) ?? []).map((octet) =>
    Number.parseInt(octet, 2),
  );
}

const SHAPES = [
  { bits: 1, depthBits: 1, colourTypeCode: 0 },
  { bits: 2, depthBits: 2, colourTypeCode: 0 },
  { bits: 4, depthBits: 4, colourTypeCode: 0 },
  { bits: 8, depthBits: 8, colourTypeCode: 0 },
  { bits: 16, depthBits: 16, colourTypeCode: 0 },
  { bits: 24, depthBits: 8, colourTypeCode: 2 },
  { bits: 32, depthBits: 8, colourTypeCode: 6 },
];

describe('unpackPng', () => {
  it.each(SHAPES)(
    '$bits bits, colour type $colourTypeCode, any size and filters: the numbers of the image',
    (shape) => {
      const images = fc
        .record({ widthCount: fc.integer({ min: 1, max: 19 }), heightCount: fc.integer({ min: 1, max: 7 }) })
        .chain(({ widthCount, heightCount }) =>
          fc.record({
            widthCount: fc.constant(widthCount),
            numbers: fc.array(
              fc.array(fc.integer({ min: 0, max: 2 ** shape.bits - 1 }), {
                minLength: widthCount,
                maxLength: widthCount,
              }),
              { minLength: heightCount, maxLength: heightCount },
            ),
            filters: fc.array(fc.integer({ min: 0, max: 4 }), { minLength: 1, maxLength: 7 }),
            chunkOctets: fc.integer({ min: 5, max: 200 }),
          }),
        );
      fc.assert(
        fc.property(images, ({ widthCount, numbers, filters, chunkOctets }) => {
          const { bits, depthBits, colourTypeCode } = shape;
          const rows = numbers.map((row) => rowOctets(row, bits));
          const pointOctets = Math.max(1, bits / 8);
          const stream = writePng({ widthCount, depthBits, colourTypeCode, rows, filters, pointOctets, chunkOctets });
          expect(unpacked(stream, numbers.flat().length)).toEqual(numbers.flat());
        }),
        { seed: 15_948, numRuns: 60 },
      );
    },
  );

  const image: ImageToWrite = {
    widthCount: 3,
    depthBits: 8,
    colourTypeCode: 0,
    rows: [
      [1, 2, 3],
      [4, 5, 6],
    ],
    filters: [0, 4],
    pointOctets: 1,
  };

  it.each<[string, Uint8Array, number, string]>([
    ['no PNG', Uint8Array.of(1, 2, 3), 6, 'The stream does not begin with the PNG signature.'],
    ['another number of points', writePng(image), 7, 'The image has 3 × 2 points.'],
    ['interlaced', writePng({ ...image, interlaceCode: 1 }), 6, 'The image is interlaced.'],
    ['palette', writePng({ ...image, colourTypeCode: 3 }), 6, 'The image has colour type 3 of 8 bits.'],
    [
      'colours of 16 bits',
      writePng({ ...image, colourTypeCode: 2, depthBits: 16 }),
      6,
      'The image has colours of 16 bits.',
    ],
    ['unknown filter', writePng({ ...image, filters: [5] }), 6, 'A row has a filter above 4.'],
    ['a row too few', writePng({ ...image, rows: [[1], [2]] }), 6, 'The compressed data hold 4 octets.'],
  ])('%s: refused', (_, stream, count, what) => {
    expect(unpacked(stream, count)).toBe(what);
  });

  it('two hundred thousand zeros behind a small header: refused, unfolded no further than the image', () => {
    const stream = writePng({ ...image, rows: [Array.from({ length: 200_000 }, () => 0), [0]] });
    expect(unpacked(stream, 6)).toBe('The compressed data are damaged, or longer than the image.');
  });

  it('cut at every octet: a fault, or the whole image when only its end is missing', () => {
    const stream = writePng(image);
    const cuts = Array.from({ length: stream.length }, (_, length) => unpacked(stream.subarray(0, length), 6));
    const whole = cuts.filter((found) => typeof found !== 'string');
    expect(whole).toEqual(whole.map(() => [1, 2, 3, 4, 5, 6]));
    expect(whole.length).toBeLessThan(30);
  });
});
