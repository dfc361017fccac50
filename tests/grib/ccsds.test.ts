/** Streams of libaec, and streams made by hand from the words of the standard, CCSDS 121.0-B. */
import { describe, expect, it } from 'vitest';
import { walkCcsds } from '../../scripts/ccsds-options/walk.ts';
import { type CcsdsCoding, codingFault } from '../../lib/grib/packing/ccsds/coding.ts';
import { unpackCcsds } from '../../lib/grib/packing/ccsds/unpack.ts';
import { samplesOf } from './ccsds-coder.ts';
import { codedStreams } from './ccsds-streams.ts';

const PREPROCESSED = 8;
const coding = (changes: Partial<CcsdsCoding> = {}): CcsdsCoding => ({
  bitsPerValue: 8,
  optionMaskCode: PREPROCESSED,
  blockSampleCount: 8,
  intervalBlockCount: 128,
  ...changes,
});

/** Octets from bits, spaces ignored; the last octet is filled with zeros. */
function octetsOf(...bits: readonly string[]): Uint8Array {
  const all = bits.join('').replaceAll(' ', '');
  return Uint8Array.from(all.match(/.{1,8}/g) ?? [], (octet) => Number.parseInt(octet.padEnd(8, '0'), 2));
}

describe('unpackCcsds, streams of the reference coder', () => {
  it.each(codedStreams)('$name: the samples that were coded', ({ stream, coding: coded, samples }) => {
    expect(samplesOf(stream, coded, samples.length)).toEqual(samples);
  });

  // Blocks near the end are read with care, bit by bit; octets behind them let all blocks be read the fast way.
  it.each(codedStreams)('$name, other octets behind it: the same samples', ({ stream, coding: coded, samples }) => {
    const longer = new Uint8Array(stream.length + 4000).fill(0x5a);
    longer.set(stream);
    expect(samplesOf(longer, coded, samples.length)).toEqual(samples);
  });

  it.each(codedStreams)('$name: the plain decoder agrees, and finds the options listed', (coded) => {
    const walk = walkCcsds(coded.stream, coded.coding, coded.samples.length);
    expect(walk.samples.map(Number)).toEqual(coded.samples);
    expect([...walk.options.keys()]).toEqual(coded.options);
  });

  it.each(codedStreams)('$name, fewer values wanted: the first samples, or no zero blocks beyond them', (coded) => {
    const { stream, samples } = coded;
    const wrong: string[] = [];
    for (let count = 0; count < samples.length; count += 1 + (count >>> 2)) {
      const found = samplesOf(stream, coded.coding, count);
      const isRunBeyond = typeof found === 'string' && found.includes('zero blocks is declared');
      const isFirst = typeof found !== 'string' && found.length === count && found.every((x, i) => x === samples[i]);
      if (!isRunBeyond && !isFirst) wrong.push(`${count} values`);
    }
    expect(wrong).toEqual([]);
  });

  it('all of them: use every option there is', () => {
    const used = new Set(codedStreams.flatMap(({ options }) => options));
    const splits = Array.from({ length: 30 }, (_, k) => `split k=${k}`);
    const others = ['zero blocks', 'zero blocks to the end of the segment', 'second extension', 'without compression'];
    const modes = ['preprocessed', 'not preprocessed', 'restricted set', 'padded interval'];
    expect([...used].toSorted()).toEqual([...splits, ...others, ...modes].toSorted());
  });

  it('flags for the memory of the encoder (2, 4), and for other block sizes (64): change nothing', () => {
    for (const { stream, coding: coded, samples } of codedStreams) {
      const flagged = { ...coded, optionMaskCode: coded.optionMaskCode | 2 | 4 | 64 };
      expect(samplesOf(stream, flagged, samples.length)).toEqual(samples);
    }
  });

  it('restricted set for samples wider than 8 bits: changes nothing, as in libaec', () => {
    for (const { stream, coding: coded, samples } of codedStreams.filter((one) => one.coding.bitsPerValue > 8)) {
      const flagged = { ...coded, optionMaskCode: coded.optionMaskCode | 16 };
      expect(samplesOf(stream, flagged, samples.length)).toEqual(samples);
    }
  });

  it('scale: (sample · step + reference) · factor', () => {
    const scale = { reference: -12.75, step: 2 ** -3, factor: 0.01 };
    for (const { stream, coding: coded, samples } of codedStreams) {
      const values = new Float64Array(samples.length);
      expect(unpackCcsds(stream, coded, { values, scale })).toBeNull();
      expect([...values]).toEqual(samples.map((sample) => (sample * scale.step + scale.reference) * scale.factor));
    }
  });
});

describe('unpackCcsds, streams made by hand', () => {
  // 8 bits: identifiers of 3 bits. Split at 0: quotients only. 100, then the mapped differences +1 (2), -1 (1), 0, …
  const split = ['001', '01100100', '001 01 1 1 1 1 1'];

  it('split at 0: reference sample, then differences mapped in turns', () => {
    expect(samplesOf(octetsOf(...split), coding(), 8)).toEqual([100, 101, 100, 100, 100, 100, 100, 100]);
  });

  it('split at 1: all quotients stand before all remainders', () => {
    const stream = octetsOf('010', '01100100', '1 01 1 1 1 1 1', '1 0 0 0 0 0 0');
    expect(samplesOf(stream, coding(), 8)).toEqual([99, 100, 100, 100, 100, 100, 100].toSpliced(0, 0, 100));
  });

  it('prediction near the least and the greatest sample: only one way is left', () => {
    // From 1: 3 is mapped from +3 - 1 = 2 both ways used up. From 254 likewise downwards.
    const up = octetsOf('111', '00000001', '00000011', '00000000'.repeat(6));
    expect(samplesOf(up, coding(), 8)).toEqual([1, 3, 3, 3, 3, 3, 3, 3]);
    const down = octetsOf('111', '11111110', '00000011', '00000000'.repeat(6));
    expect(samplesOf(down, coding(), 8)).toEqual([254, 252, 252, 252, 252, 252, 252, 252]);
  });

  it('second extension: the reference sample takes the place of the first of its pair', () => {
    // Sequence 2 is the pair (0, 1): -1; sequence 4 is (1, 1): twice -1.
    const stream = octetsOf('000 1', '01100100', '001 00001 1 1');
    expect(samplesOf(stream, coding(), 8)).toEqual([100, 99, 98, 97, 97, 97, 97, 97]);
  });

  it('zero blocks: one, two, three, four, the rest of the segment, five', () => {
    const oneBlock = (bits: string): Uint8Array => octetsOf('000 0', '00000111', bits, '111', '00000010'.repeat(8));
    const counts = [1, 2, 3, 4, 64, 5, 6];
    for (const [zeroCount, blockCount] of counts.entries()) {
      const stream = oneBlock(`${'0'.repeat(zeroCount)}1`);
      const expected = [...Array<number>(8 * blockCount).fill(7), 8, 9, 10, 11, 12, 13, 14, 15];
      expect(samplesOf(stream, coding(), expected.length)).toEqual(expected);
    }
  });

  it('rest of the segment: ends with the interval where that is shorter', () => {
    const stream = octetsOf('000 0', '00000111', '00001', '000 0', '00001000', '00001');
    expect(samplesOf(stream, coding({ intervalBlockCount: 3 }), 48)).toEqual(
      [7, 8].flatMap((x) => Array<number>(24).fill(x)),
    );
  });

  it('without preprocessing: zero blocks are zeros, numbers are samples', () => {
    const stream = octetsOf('000 0 1', '111', '00000010'.repeat(8));
    const expected = [...Array<number>(8).fill(0), ...Array<number>(8).fill(2)];
    expect(samplesOf(stream, coding({ optionMaskCode: 0 }), 16)).toEqual(expected);
  });

  it('restricted set: identifiers of one bit up to 2 bits, of two bits up to 4', () => {
    const narrow = coding({ bitsPerValue: 2, optionMaskCode: 16 });
    expect(samplesOf(octetsOf('1', '00 01 10 11 00 01 10 11'), narrow, 8)).toEqual([0, 1, 2, 3, 0, 1, 2, 3]);
    const wider = coding({ bitsPerValue: 3, optionMaskCode: 16 });
    expect(samplesOf(octetsOf('10', '1 01 1 1 1 1 1 1', '0 1 0 0 0 0 0 0'), wider, 8)).toEqual([
      0, 3, 0, 0, 0, 0, 0, 0,
    ]);
  });

  it('padded intervals: each begins on a whole octet', () => {
    const padded = coding({ optionMaskCode: 8 | 32, intervalBlockCount: 1 });
    const stream = Uint8Array.from([...octetsOf('000 0', '00000111', '1'), ...octetsOf('000 0', '00001000', '1')]);
    expect(samplesOf(stream, padded, 16)).toEqual([7, 8].flatMap((x) => Array<number>(8).fill(x)));
  });

  it('no values: needs no stream', () => {
    expect(samplesOf(new Uint8Array(0), coding(), 0)).toEqual([]);
  });
});

describe('codingFault', () => {
  it.each<[string, Partial<CcsdsCoding>, number]>([
    ['no bits', { bitsPerValue: 0 }, 20],
    ['33 bits', { bitsPerValue: 33 }, 20],
    ['signed samples', { optionMaskCode: 9 }, 22],
    ['a flag without meaning', { optionMaskCode: 136 }, 22],
    ['restricted set of 5 bits', { bitsPerValue: 5, optionMaskCode: 24 }, 22],
    ['no samples in a block', { blockSampleCount: 0 }, 23],
    ['an odd number of samples in a block', { blockSampleCount: 17 }, 23],
    ['no blocks in an interval', { intervalBlockCount: 0 }, 24],
    ['4097 blocks in an interval', { intervalBlockCount: 4097 }, 24],
  ])('%s: names the octet of Section 5, and is not decoded', (_, changes, octet) => {
    expect(codingFault(coding(changes))).toMatchObject({ octet });
    expect(samplesOf(new Uint8Array(64), coding(changes), 8)).toMatch(/^octet 1: /);
  });

  it('all that the standard allows: null', () => {
    for (const blockSampleCount of [8, 16, 32, 64]) {
      for (const intervalBlockCount of [1, 4096]) {
        expect(codingFault(coding({ blockSampleCount, intervalBlockCount }))).toBeNull();
      }
    }
    expect(codingFault(coding({ bitsPerValue: 4, optionMaskCode: 16 }))).toBeNull();
    expect(codingFault(coding({ bitsPerValue: 32, optionMaskCode: 8 | 32 | 64 }))).toBeNull();
  });
});
