/** Whole code-streams: of other encoders, of a plain one, refused, cut and damaged ones. */
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { decodeJpeg2000 } from '../../lib/grib/packing/jpeg-2000/decode.ts';
import type { StreamFault } from '../../lib/grib/packing/stream-fault.ts';
import { longOrShort } from '../long-run.ts';
import { encodePlain } from './jpeg-2000-encoder.ts';
import { filesOfFolder, octetsOf, samplesOf, streams } from './jpeg-2000-streams.ts';

const DAMAGED_COUNT = longOrShort(3000, 600);

const decode = (stream: Uint8Array, sampleCount: number): Int32Array | StreamFault =>
  decodeJpeg2000(stream, { sampleCount });

/** Samples, or the words of the fault where there should be none. */
function samplesIn(stream: Uint8Array, sampleCount: number): readonly number[] {
  const result = decode(stream, sampleCount);
  if (!(result instanceof Int32Array)) throw new Error(`octet ${result.octet}: ${result.what}`);
  return [...result];
}

function faultIn(stream: Uint8Array, sampleCount = 1320): StreamFault {
  const result = decode(stream, sampleCount);
  if (result instanceof Int32Array) throw new Error('decoded');
  return result;
}

/** Octets of `plain.j2k` with some replaced; indexes from 0. */
function changed(changes: Readonly<Record<number, number>>, file = 'plain.j2k'): Uint8Array {
  const octets = octetsOf(file);
  for (const [index, octet] of Object.entries(changes)) octets[Number(index)] = octet;
  return octets;
}

describe('decodeJpeg2000, streams of other encoders', () => {
  it('the list: names every file of the folder, and no other', () => {
    const named = streams.flatMap(({ file, samples }) => (samples.endsWith('.u32') ? [file, samples] : [file]));
    expect(named.toSorted()).toEqual(filesOfFolder());
    expect(streams).toHaveLength(34);
  });

  it.each(streams)('$file ($encoder): the samples that were put in', (stream) => {
    const { columnCount, rowCount, tolerance } = stream;
    const expected = samplesOf(stream);
    const samples = samplesIn(octetsOf(stream.file), columnCount * rowCount);
    expect(samples).toHaveLength(expected.length);
    const furthest = samples.reduce((most, value, i) => Math.max(most, Math.abs(value - (expected[i] ?? NaN))), 0);
    expect(furthest).toBeLessThanOrEqual(tolerance);
  });
});

describe('decodeJpeg2000, streams of a plain encoder', () => {
  const size = fc.integer({ min: 1, max: 19 });
  const offset = fc.integer({ min: 0, max: 9 });
  const frame = fc.record({ columnCount: size, rowCount: size, columnIndex: offset, rowIndex: offset });

  const checkRoundTrip = (
    { columnCount, rowCount, columnIndex, rowIndex }: Readonly<Record<string, number>>,
    coding: { depthBits: number; levelCount: number; reach: number; seeds: readonly number[] },
  ): void => {
    const { depthBits, levelCount, reach, seeds } = coding;
    const count = (columnCount ?? 0) * (rowCount ?? 0);
    const samples = Array.from({ length: count }, (_, i) => {
      const seed = seeds[i % seeds.length] ?? 0;
      // Around the middle of the range, where the level shift puts zero.
      const value = Math.floor(2 ** (depthBits - 1) + ((seed * (i + 1)) % 1 || seed) * reach - reach / 2);
      return Math.max(0, Math.min(2 ** depthBits - 1, value));
    });
    const image = { columnCount: columnCount ?? 0, rowCount: rowCount ?? 0, depthBits, levelCount, samples };
    const at = { columnIndex: columnIndex ?? 0, rowIndex: rowIndex ?? 0 };
    expect(samplesIn(encodePlain({ ...image, offset: at }), count)).toEqual(samples);
  };
  const seeds = fc.array(fc.double({ min: 0, max: 1, noNaN: true }), { minLength: 1, maxLength: 40 });

  it('any size, offset, depth up to 28 bits and level: the samples that were put in', () => {
    const coding = fc.record({
      depthBits: fc.integer({ min: 1, max: 28 }),
      levelCount: fc.integer({ min: 0, max: 6 }),
      reachShare: fc.constantFrom(1, 1 / 4, 1 / 1024),
      seeds,
    });
    fc.assert(
      fc.property(frame, coding, (image, { reachShare, ...rest }) => {
        checkRoundTrip(image, { ...rest, reach: reachShare * 2 ** rest.depthBits });
      }),
      { seed: 20_260_527, numRuns: longOrShort(250, 80) },
    );
  });

  it('29 to 31 bits: the full range without wavelet, an eighth of it with one', () => {
    const coding = fc.record({
      depthBits: fc.integer({ min: 29, max: 31 }),
      levelCount: fc.integer({ min: 0, max: 3 }),
      seeds,
    });
    fc.assert(
      fc.property(frame, coding, (image, rest) => {
        checkRoundTrip(image, { ...rest, reach: 2 ** (rest.levelCount === 0 ? rest.depthBits : rest.depthBits - 3) });
      }),
      { seed: 20_260_528, numRuns: 60 },
    );
  });

  it('32 levels of one sample: decoded', () => {
    const image = {
      columnCount: 1,
      rowCount: 1,
      offset: { columnIndex: 0, rowIndex: 0 },
      depthBits: 12,
      levelCount: 32,
    };
    expect(samplesIn(encodePlain({ ...image, samples: [1234] }), 1)).toEqual([1234]);
  });
});

// Octets of plain.j2k from 0: SIZ at 2, COD at 45, QCD at 59, then the comment and the tile-part.
describe('decodeJpeg2000, refusals', () => {
  const cases: readonly (readonly [name: string, stream: Uint8Array, expected: Partial<StreamFault>])[] = [
    ['nothing', new Uint8Array(0), { octet: 1, expected: 'SOC, FF4F' }],
    ['no code-stream', changed({ 1: 0x50 }), { octet: 1, what: 'This is no JPEG 2000 code-stream.' }],
    ['no image size', changed({ 3: 0x52 }), { octet: 3, expected: 'SIZ, FF51' }],
    ['two components', changed({ 41: 2 }), { octet: 41, what: 'The image has 2 components.' }],
    ['signed samples', changed({ 42: 0x8b }), { octet: 43, expected: 'a code-stream without signed samples' }],
    ['32 bits', changed({ 42: 31 }), { octet: 43, what: 'The samples have 32 bits.', expected: '1 to 31 bits' }],
    ['a sub-sampled component', changed({ 43: 2 }), { octet: 44 }],
    ['an empty tile', changed({ 27: 0 }), { octet: 25 }],
    ['an unknown progression order', changed({ 50: 5 }), { octet: 51, what: 'Progression order 5.' }],
    ['no layer', changed({ 52: 0 }), { octet: 52 }],
    ['33 levels', changed({ 54: 33 }), { octet: 55, what: '33 levels of decomposition.' }],
    ['code-blocks too large', changed({ 55: 8, 56: 8 }), { octet: 56 }],
    ['high-throughput code-blocks', changed({ 57: 0x40 }), { octet: 58 }],
    ['an unknown wavelet', changed({ 58: 2 }), { octet: 59, what: 'Wavelet transformation 2.' }],
    ['the wavelet of the other quantization', changed({ 58: 0 }), { expected: 'style 0 with 5/3, 1 or 2 with 9/7' }],
    ['a region of interest', changed({ 60: 0x5e }), { expected: 'a code-stream without a region of interest (RGN)' }],
    ['packed headers', changed({ 60: 0x60 }), { expected: 'a code-stream without packed packet headers (PPM)' }],
    ['a changed progression', changed({ 60: 0x5f }), { octet: 60 }],
    ['extended capabilities', changed({ 60: 0x50 }), { octet: 60 }],
    ['an unknown quantization', changed({ 63: 0x43 }), { octet: 64, what: 'Quantization style 3.' }],
    ['no quantization', changed({ 60: 0x30 }), { what: 'No header says how the tile is quantized.' }],
    ['no coding style', changed({ 46: 0x30 }), { what: 'No header says how the tile is coded.' }],
  ];

  it.each(cases)('%s: named with its octet', (_name, stream, expected) => {
    expect(faultIn(stream)).toMatchObject(expected);
  });

  it('another number of samples: refused at the size, before anything else is read', () => {
    expect(faultIn(octetsOf('plain.j2k'), 1321)).toEqual({
      octet: 9,
      what: 'The image has 40 columns and 33 rows.',
      expected: '1321 samples in all',
    });
    expect(faultIn(octetsOf('plain.j2k').subarray(0, 45), 1319)).toMatchObject({ octet: 9 });
  });

  it('more precincts than octets: refused before memory is taken', () => {
    // Some 500 octets, 400 of them packets, that declare a row of 2^32 - 1 samples, in precincts of two samples.
    const plain = octetsOf('plain.j2k');
    const wide = [255, 255, 255, 255, 0, 0, 0, 1];
    const none = [0, 0, 0, 0, 0, 0, 0, 0];
    const size = [...wide, ...none, ...wide, ...none];
    const style = [0, 18, 1, ...plain.subarray(50, 59), 0x11, 0x11, 0x11, 0x11, 0x11, 0x11];
    const pieces = [plain.subarray(0, 8), size, plain.subarray(40, 47), style, plain.subarray(59)];
    const stream = Uint8Array.from(pieces.flatMap((piece) => [...piece]));
    const { what, expected } = faultIn(stream, 2 ** 32 - 1);
    // Six levels of 2^32 to 2^27 columns, two in each precinct.
    const precinctCount = [31, 30, 29, 28, 27, 26].reduce((sum, power) => sum + 2 ** power, 0);
    expect(what).toBe(`The tile has ${precinctCount} precincts in 1 layers.`);
    expect(expected).toMatch(/^at most 3\d\d precincts/);
  });

  it('a JP2 file without code-stream: refused', () => {
    expect(faultIn(octetsOf('jp2.jp2').subarray(0, 40))).toMatchObject({ octet: 1, expected: 'a box jp2c' });
  });

  it('a part of a tile out of its order: refused', () => {
    const stream = octetsOf('tile-parts.j2k');
    const at = stream.findLastIndex((octet, index) => octet === 0xff && stream[index + 1] === 0x90);
    stream[at + 10] = 7;
    expect(faultIn(stream)).toMatchObject({ octet: at + 11, what: 'Part 7 of tile 3.' });
  });
});

/** Whether a result is all samples in their range, or a fault at an octet of the stream or just behind it. */
const isWhole = (result: Int32Array | StreamFault, stream: Uint8Array, sampleCount: number): boolean =>
  result instanceof Int32Array
    ? result.length === sampleCount && result.every((value) => value >= 0)
    : Number.isInteger(result.octet) && result.octet >= 1 && result.octet <= stream.length + 1;

describe('decodeJpeg2000, hostile octets', () => {
  it.each(['plain.j2k', 'tile-parts.j2k', 'markers.j2k', 'style-all.j2k', 'jp2.jp2'])(
    '%s cut at every octet: a fault, or all samples where only the end mark is missing',
    (file) => {
      const whole = octetsOf(file);
      const samples = samplesIn(whole, 1320).join(' ');
      // Length and whether the samples are right.
      const decoded: number[] = [];
      for (let length = 0; length < whole.length; length++) {
        const cut = whole.subarray(0, length);
        const result = decode(cut, 1320);
        expect(isWhole(result, cut, 1320)).toBe(true);
        if (result instanceof Int32Array) decoded.push(length, result.join(' ') === samples ? 1 : 0);
      }
      expect(decoded).toEqual([whole.length - 2, 1]);
    },
  );

  it(`${DAMAGED_COUNT} damaged streams: a fault or all samples in range, within two seconds each`, () => {
    const small = streams.filter(({ columnCount, rowCount }) => columnCount * rowCount < 3000);
    const damage = fc.array(fc.tuple(fc.nat(), fc.integer({ min: 0, max: 255 })), { minLength: 1, maxLength: 6 });
    let faultCount = 0;
    fc.assert(
      fc.property(fc.constantFrom(...small), damage, fc.boolean(), (stream, changes, isInHeader) => {
        const octets = octetsOf(stream.file);
        const reach = isInHeader ? Math.min(110, octets.length) : octets.length;
        for (const [place, octet] of changes) octets[place % reach] = octet;
        const sampleCount = stream.columnCount * stream.rowCount;
        const startedMs = performance.now();
        const result = decode(octets, sampleCount);
        expect(performance.now() - startedMs).toBeLessThan(2000);
        expect(isWhole(result, octets, sampleCount)).toBe(true);
        if (!(result instanceof Int32Array)) faultCount += 1;
      }),
      { seed: 20_260_529, numRuns: DAMAGED_COUNT },
    );
    // Both outcomes occur: damage inside a code-block is still a code-block.
    expect(faultCount).toBeGreaterThan(300);
    expect(faultCount).toBeLessThan(2900);
  });
});
