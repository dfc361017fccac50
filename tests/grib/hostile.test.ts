/** No octets may throw, hang or give a value that is not in the file: truncation at every section and every 97th octet, random flips. */
import { describe, expect, it } from 'vitest';
import { decodePacked, gridPositions, scanGrib, toNorthUpGrid } from '../../lib/grib/index.ts';
import { longOrShort } from '../long-run.ts';
import { goldenFiles, readGoldenBytes } from './golden-files.ts';
import { complexMessage, sectionStarts, smallMessage } from './sample-message.ts';

/** Larger samples are cut at their first octets only, so that the test stays short. */
const MOST_OCTETS = 20_000;
const ROUND_COUNT = longOrShort(40, 5);
const samples = goldenFiles.map(({ file }) => ({ file, bytes: readGoldenBytes(file).subarray(0, MOST_OCTETS) }));

/** Reads everything there is to read; returns the number of fields whose values could be had. */
function readAll(bytes: Uint8Array): { decodedCount: number; problemCount: number } {
  const { fields, problems } = scanGrib(bytes, 'hostile');
  let decodedCount = 0;
  for (const field of fields) {
    const values = decodePacked(bytes, field);
    if (!values.ok) continue;
    decodedCount += 1;
    if (values.value.some((value) => !Number.isFinite(value) && !Number.isNaN(value)))
      throw new Error('an infinite value');
    if (field.grid.kind !== 'unsupported' && field.pointCount < 1000) {
      gridPositions(field.grid);
      toNorthUpGrid(field.grid, values.value);
    }
  }
  return { decodedCount, problemCount: problems.length };
}

/** A small generator with a fixed seed (Park and Miller's minimal standard), so that a failure can be repeated. */
function seeded(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state * 48_271) % 2_147_483_647;
    return state / 2_147_483_647;
  };
}

describe('truncated', () => {
  it.each([
    ['simple', smallMessage()],
    ['complex', complexMessage()],
  ])('%s message at every section boundary: a problem and no field', (_, message) => {
    for (const cutIndex of sectionStarts(message)
      .filter((index) => index > 0)
      .slice(0, -1)) {
      const { fields, problems } = scanGrib(message.subarray(0, cutIndex), 'cut');
      expect(fields.length, `cut at ${cutIndex}`).toBe(0);
      expect(problems.map(({ code }) => code)).toEqual(['grib.message-truncated']);
    }
  });

  it.each(samples)('$file at every 97th octet: never more fields, never a throw', ({ bytes }) => {
    const whole = scanGrib(bytes, 'whole').fields.length;
    // Beyond the first thousand octets of a large sample only the data grow.
    const stepOctets = bytes.length > 10_000 ? 970 : 97;
    for (let cutIndex = 0; cutIndex < bytes.length; cutIndex += stepOctets) {
      const cut = scanGrib(bytes.subarray(0, cutIndex), 'cut');
      expect(cut.fields.length).toBeLessThanOrEqual(whole);
      expect(cut.fields.length + cut.problems.length, `cut at ${cutIndex}`).toBeGreaterThan(0);
    }
  });
});

describe('flipped bits', () => {
  it.each(samples.filter(({ bytes }) => bytes.length < 12_000))(
    '$file: never a throw, a hang or an infinite value',
    ({ bytes }) => {
      const random = seeded(1 + bytes.length);
      for (let round = 0; round < ROUND_COUNT; round++) {
        const copy = bytes.slice();
        const flips = 1 + Math.floor(random() * 4);
        for (let flip = 0; flip < flips; flip++) {
          // Half of the flips hit the headers of the first message, where lengths and counts stand.
          const index = Math.floor(random() * (random() < 0.5 ? Math.min(bytes.length, 220) : bytes.length));
          copy[index] = (copy[index] ?? 0) ^ (1 << Math.floor(random() * 8));
        }
        expect(() => readAll(copy)).not.toThrow();
      }
    },
  );

  it.each([
    ['simple', smallMessage()],
    ['complex', complexMessage()],
  ])('%s message, every octet of its headers set to 0, 127, 128 and 255: never a throw', (_, message) => {
    for (let index = 0; index < Math.min(message.length, 260); index++) {
      for (const octet of [0, 127, 128, 255]) {
        const copy = message.slice();
        copy[index] = octet;
        expect(() => readAll(copy), `octet ${index} set to ${octet}`).not.toThrow();
      }
    }
  });

  it('random octets after the start mark: never a throw', () => {
    const random = seeded(42);
    for (let round = 0; round < 300; round++) {
      const bytes = Uint8Array.from({ length: 300 }, () => Math.floor(random() * 256));
      bytes.set([0x47, 0x52, 0x49, 0x42, 0, 0, 0, 1 + (round % 2)]);
      expect(() => readAll(bytes)).not.toThrow();
    }
  });
});

describe('declared sizes', () => {
  it('a thousand start marks with huge lengths: read in one pass', () => {
    const mark = [0x47, 0x52, 0x49, 0x42, 0, 0, 0, 2, 0x7f, 255, 255, 255, 255, 255, 255, 255];
    const bytes = Uint8Array.from(Array.from({ length: 1000 }, () => mark).flat());
    const { decodedCount, problemCount } = readAll(bytes);
    expect(decodedCount).toBe(0);
    expect(problemCount).toBeGreaterThan(0);
  });
});
