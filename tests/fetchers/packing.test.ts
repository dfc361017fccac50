import { readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import { describe, expect, it } from 'vitest';
import { unpack } from '../../server/fetchers/packing/unpack.ts';
import { codesOf, valueOf } from './fetch-fixture.ts';
import { seededRandom } from './seeded-random.ts';

/** Packed by bzip2 1.0.8, the reference program: tests/golden/fetchers/about.json. */
const golden = (name: string): Uint8Array =>
  new Uint8Array(readFileSync(new URL(`../golden/fetchers/${name}`, import.meta.url)));
const MIX = golden('mix.bz2');
const MESSAGE = golden('message.grib2.bz2');

const text = (letters: string): Buffer => Buffer.from(letters, 'latin1');
const mix = Buffer.concat([
  Buffer.alloc(250_000),
  ...Array.from({ length: 40 }, () => Buffer.from(Array.from({ length: 256 }, (_, octet) => octet))),
  text('ab'.repeat(300)),
  text('cccc'),
  text('d'.repeat(264)),
  text('e'),
]);
const MOST = 1_000_000;

describe('bzip2', () => {
  it('runs, all octets and several blocks, as the reference program packed them', () => {
    expect(Buffer.from(valueOf(unpack(MIX, 'a', MOST))).equals(mix)).toBe(true);
  });

  it('two streams, one after the other: both', () => {
    const both = valueOf(unpack(new Uint8Array(Buffer.concat([MIX, MESSAGE])), 'a', MOST));
    expect(both.length).toBe(mix.length + valueOf(unpack(MESSAGE, 'a', MOST)).length);
  });

  it('more than is allowed comes out: refused before it is written', () => {
    expect(codesOf(unpack(MIX, 'a', 200_000))).toEqual(['fetch.unpacked-too-large']);
  });

  it('cut anywhere: refused', () => {
    for (let length = 4; length < MIX.length; length += 13)
      expect(codesOf(unpack(MIX.subarray(0, length), 'a', MOST))).toEqual(['fetch.packing-damaged']);
  });

  it('one bit turned, 120 times at drawn places: refused, or what was packed', () => {
    const random = seededRandom(5);
    const good = Buffer.from(valueOf(unpack(MESSAGE, 'a', MOST)));
    const read = Array.from({ length: 120 }, () => {
      const bad = Uint8Array.from(MESSAGE);
      const place = 3 + Math.floor(random() * (bad.length - 3));
      bad[place] = (bad[place] ?? 0) ^ (1 << Math.floor(random() * 8));
      return unpack(bad, 'a', MOST);
    });
    const accepted = read.flatMap((one) => (one.ok ? [Buffer.from(one.value)] : []));
    expect(accepted.filter((octets) => !octets.equals(good))).toEqual([]);
    expect(accepted.length).toBeLessThan(10);
  });
});

describe('gzip', () => {
  const packed = new Uint8Array(gzipSync(mix));

  it('whole: unpacked', () => {
    expect(Buffer.from(valueOf(unpack(packed, 'a', MOST))).equals(mix)).toBe(true);
  });

  it.each([
    ['cut', packed.subarray(0, packed.length - 9), MOST, 'fetch.packing-damaged'],
    ['more than is allowed', packed, 1000, 'fetch.unpacked-too-large'],
  ])('%s: refused', (_, octets, most, code) => {
    expect(codesOf(unpack(octets, 'a', most))).toEqual([code]);
  });
});
