/** Streams that are cut short, changed, or hold what no encoder writes. */
import { describe, expect, it } from 'vitest';
import { walkCcsds } from '../../scripts/ccsds-options/walk.ts';
import type { CcsdsCoding } from '../../lib/grib/packing/ccsds/coding.ts';
import { unpackCcsds } from '../../lib/grib/packing/ccsds/unpack.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { samplesOf } from './ccsds-coder.ts';
import { draws } from './ccsds-sample-kinds.ts';
import { codedStreams } from './ccsds-streams.ts';

const areSame = (some: readonly number[], others: readonly number[]): boolean =>
  some.length === others.length && some.every((sample, i) => sample === others[i]);

describe('unpackCcsds, cut short', () => {
  it.each(codedStreams)('$name, cut at every octet: the stream ends before the values', (coded) => {
    const { stream, coding, samples } = coded;
    const surplusCount = coding.blockSampleCount - (samples.length % coding.blockSampleCount);
    // The last octets may hold nothing but what the encoder put behind the last sample.
    const neededOctets = stream.length - Math.ceil((surplusCount * coding.bitsPerValue) / 8);
    const wrong: string[] = [];
    for (let lengthOctets = 0; lengthOctets < stream.length; lengthOctets++) {
      const found = samplesOf(stream.subarray(0, lengthOctets), coding, samples.length);
      const octet = Math.max(lengthOctets, 1);
      const isFault =
        typeof found === 'string' && found.startsWith(`octet ${octet}: The stream ends after ${lengthOctets} `);
      const isWhole = typeof found !== 'string' && lengthOctets >= neededOctets && areSame(found, samples);
      if (!isFault && !isWhole) wrong.push(`${lengthOctets} octets: ${typeof found === 'string' ? found : 'samples'}`);
    }
    expect(wrong).toEqual([]);
  });

  it.each(codedStreams.filter(({ samples, coding }) => samples.length % coding.blockSampleCount === 0))(
    '$name, no surplus samples, the last octet cut: a fault',
    ({ stream, coding, samples }) => {
      const found = samplesOf(stream.subarray(0, -1), coding, samples.length);
      expect(found).toContain(`${samples.length} values`);
    },
  );

  it('a stream that lies in a longer file: octets behind it are not read', () => {
    for (const { stream, coding, samples } of codedStreams) {
      const file = new Uint8Array(stream.length + 300).fill(0xff);
      file.set(stream, 100);
      const lengthOctets = stream.length >>> 1;
      const found = samplesOf(file.subarray(100, 100 + lengthOctets), coding, samples.length);
      expect(found).toMatch(/The stream ends after/);
    }
  });
});

describe('unpackCcsds, octets changed', () => {
  const MUTATIONS_COUNT = IS_LONG_RUN ? 5000 : 1000;

  it(`${MUTATIONS_COUNT} mutations: a fault inside the stream, or what the plain decoder reads too`, () => {
    const next = draws(1210);
    const below = (count: number): number => Math.floor(next() * count);
    const surplus = new Uint8Array(1000).fill(0xff);
    let faultCount = 0;
    const differing: number[] = [];
    const outside: number[] = [];
    for (let i = 0; i < MUTATIONS_COUNT; i++) {
      const coded = codedStreams[i % codedStreams.length];
      if (coded === undefined) throw new Error('no streams');
      const { stream, coding, samples } = coded;
      const changed = Uint8Array.from(stream);
      for (let change = below(4); change >= 0; change--) changed[below(changed.length)] = below(256);
      const count = Math.min(samples.length, 400);
      const values = new Float64Array(count).fill(NaN);
      const fault = unpackCcsds(changed, coding, { values, scale: { reference: 0, step: 1, factor: 1 } });
      if (fault === null) {
        // The plain decoder reads its last block to the end, which may lie behind the stream.
        const longer = Uint8Array.from([...changed, ...surplus]);
        if (!areSame([...values], walkCcsds(longer, coding, count).samples.map(Number))) differing.push(i);
      } else {
        faultCount += 1;
        if (fault.octet < 1 || fault.octet > changed.length) outside.push(i);
      }
    }
    expect({ differing, outside }).toEqual({ differing: [], outside: [] });
    // Both happen often, so neither side of the test is idle.
    expect(faultCount).toBeGreaterThan(MUTATIONS_COUNT / 10);
    expect(faultCount).toBeLessThan((MUTATIONS_COUNT * 9) / 10);
  });

  it('random octets for a large field: ends, in a moment', () => {
    const next = draws(42);
    const octets = Uint8Array.from({ length: 20_000 }, () => Math.floor(next() * 256));
    for (const { coding } of codedStreams) expect(samplesOf(octets, coding, 200_000)).toMatch(/^octet \d+: /);
  });
});

describe('unpackCcsds, impossible blocks', () => {
  const coding: CcsdsCoding = {
    bitsPerValue: 8,
    optionMaskCode: 8,
    blockSampleCount: 8,
    intervalBlockCount: 128,
  };
  const bits = (text: string): Uint8Array =>
    Uint8Array.from(text.replaceAll(' ', '').match(/.{1,8}/g) ?? [], (octet) =>
      Number.parseInt(octet.padEnd(8, '0'), 2),
    );
  /** Octets behind let blocks be read the fast way. */
  const both = (text: string): Uint8Array[] => [bits(text), Uint8Array.from([...bits(text), ...new Uint8Array(200)])];

  it('a fundamental sequence longer than any quotient: a fault', () => {
    for (const stream of both(`001 00000000 ${'0'.repeat(256)}1 ${'1'.repeat(100)}`)) {
      expect(samplesOf(stream, coding, 64)).toMatch(
        /fundamental sequence has 2\d\d zeros or more\. Expected at most 255/,
      );
    }
    for (const stream of both(`110 00000000 ${'0'.repeat(8)}1 ${'1'.repeat(300)}`)) {
      expect(samplesOf(stream, coding, 64)).toMatch(
        /(A fundamental sequence has|A number of the block of value \d+ is too great)/,
      );
    }
  });

  it('zeros without an end: a fault', () => {
    const stream = new Uint8Array(100_000);
    stream[0] = 0b0010_0000;
    expect(samplesOf(stream, coding, 1000)).toMatch(/fundamental sequence/);
    const wide = { ...coding, bitsPerValue: 32 };
    stream[0] = 0b0000_1000;
    expect(samplesOf(stream, wide, 1000)).toMatch(/The stream ends after 100000 octets/);
  });

  it('a remainder wider than the sample: a fault where the number is too great', () => {
    const narrow = { ...coding, bitsPerValue: 2 };
    for (const stream of both(`110 00 ${'1'.repeat(7)} ${'11111'.repeat(7)} ${'1'.repeat(200)}`)) {
      expect(samplesOf(stream, narrow, 8)).toMatch(/A number of the block of value \d+ is too great\. Expected 0 to 3/);
    }
  });

  it('a pair beyond the last of the second extension: a fault', () => {
    const pairs = (zeroCount: number): string => `000 1 00000000 1 ${'0'.repeat(zeroCount)}1 1 1 ${'1'.repeat(100)}`;
    for (const stream of both(pairs(91))) {
      expect(samplesOf(stream, coding, 8)).toMatch(/A pair of the second extension is coded 9\d\. Expected 0 to 90/);
    }
    for (const stream of both(pairs(90))) expect(samplesOf(stream, coding, 8)).toEqual([0, 0, 0, 12, 12, 12, 12, 12]);
  });

  it('more zero blocks than values: a fault', () => {
    for (const stream of both('000 0 00000000 000001 1111')) {
      expect(samplesOf(stream, coding, 32)).toMatch(
        /A run of 5 or more zero blocks is declared\. Expected at most 4 blocks/,
      );
      expect(samplesOf(stream, coding, 33)).toHaveLength(33);
    }
  });

  it('more zero blocks than the interval has: a fault', () => {
    for (const stream of both('000 0 00000000 0001 1111')) {
      expect(samplesOf(stream, { ...coding, intervalBlockCount: 3 }, 99)).toMatch(
        /4 or more zero blocks is declared\. Expected at most 3/,
      );
    }
  });

  it('more zeros than a run can have: a fault', () => {
    for (const stream of both(`000 0 00000000 ${'0'.repeat(70)}1`)) {
      expect(samplesOf(stream, coding, 9999)).toMatch(/A run of \d+ or more zero blocks is declared\./);
    }
  });
});
