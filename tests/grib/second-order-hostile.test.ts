/** No octets of a second-order packed field may throw, hang, or give numbers that are not in the file. */
import { describe, expect, it } from 'vitest';
import { viewSection } from '../../lib/grib/section.ts';
import type { Problem } from '../../lib/result/index.ts';
import { readExpected } from './expected-values.ts';
import { type OpenMessage, openMessage, unpackNumbers } from './second-order-messages.ts';

const samples = readExpected('second-order');
/** Octets of Section 5 that its reader has found complete before. */
const READ_OCTETS = 11;

/** A small generator with a fixed seed (Park and Miller's minimal standard), so that a failure can be repeated. */
function seeded(seed: number): (limit: number) => number {
  let state = seed;
  return (limit) => {
    state = (state * 48_271) % 2_147_483_647;
    return state % limit;
  };
}

const tooShort = expect.stringMatching(/^grib\.(section|data)-too-short$/) as string;

const codeOf = (numbers: Float64Array | Problem): string => ('remedy' in numbers ? numbers.code : 'unpacked');

/** Cuts a section to its first octets. */
function cut(message: OpenMessage, name: 'data' | 'representation', lengthOctets: number): OpenMessage {
  const { sectionNumber, startIndex } = message[name];
  const section = viewSection(message.bytes, sectionNumber, { startIndex, lengthOctets });
  return { ...message, [name]: section };
}

describe('truncated', () => {
  it.each(samples)(
    '$file, data cut at every octet: a problem, or the same numbers where padding was cut',
    ({ bytes }) => {
      const message = openMessage(bytes);
      const whole = unpackNumbers(message);
      for (let lengthOctets = 0; lengthOctets < message.data.lengthOctets; lengthOctets++) {
        const numbers = unpackNumbers(cut(message, 'data', lengthOctets));
        const isPaddingCut = message.data.lengthOctets - lengthOctets <= 2 && !('remedy' in numbers);
        expect(isPaddingCut ? numbers : codeOf(numbers)).toEqual(isPaddingCut ? whole : tooShort);
      }
    },
  );

  it.each(samples.filter(({ file }) => file.endsWith('2')))(
    '$file, Section 5 cut at every octet: a problem',
    ({ bytes }) => {
      const message = openMessage(bytes);
      for (let lengthOctets = READ_OCTETS; lengthOctets < message.representation.lengthOctets; lengthOctets++) {
        expect(unpackNumbers(cut(message, 'representation', lengthOctets))).toHaveProperty(
          'code',
          'grib.section-too-short',
        );
      }
    },
  );

  it.each(samples.filter(({ file }) => file.includes('masked')))('$file, bitmap cut short: a problem', ({ bytes }) => {
    const message = openMessage(bytes);
    if (message.bitmap === null) throw new Error('no bitmap');
    const { sectionNumber, startIndex } = message.bitmap;
    const bitmap = viewSection(bytes, sectionNumber, {
      startIndex,
      lengthOctets: 6 + Math.ceil(message.pointCount / 8) - 1,
    });
    expect(unpackNumbers({ ...message, bitmap })).toHaveProperty('code', 'grib.bitmap-count');
  });
});

describe('altered', () => {
  it('3000 messages with one to four octets of their sections changed: a problem, or one finite number for each point', () => {
    const random = seeded(20_261_125);
    let unpackedCount = 0;
    let refusedCount = 0;
    for (let round = 0; round < 3000; round++) {
      const {
        file,
        bytes: original,
        values,
      } = samples[round % samples.length] ?? { file: '', bytes: new Uint8Array(), values: [] };
      const bytes = original.slice();
      const message = openMessage(bytes);
      const first = (message.bitmap ?? message.representation).startIndex;
      const end = message.data.startIndex + message.data.lengthOctets;
      // Half of the changes hit the head of a section, where they do most.
      const reach = round % 2 === 0 ? end - first : Math.min(60, end - first);
      for (let change = 0; change <= random(4); change++) bytes[first + random(reach)] = random(256);
      // Lengths and positions of sections are the walker's business: the sections stay where they were.
      const numbers = unpackNumbers(message);
      if ('remedy' in numbers) {
        refusedCount += 1;
        continue;
      }
      unpackedCount += 1;
      const mayBeMissing = message.bitmap !== null;
      expect(numbers.length).toBe(values.length);
      expect(
        numbers.every((number) => Number.isFinite(number) || (mayBeMissing && Number.isNaN(number))),
        file,
      ).toBe(true);
    }
    // Both happen, or the test would say nothing.
    expect(unpackedCount).toBeGreaterThan(300);
    expect(refusedCount).toBeGreaterThan(300);
  });

  it.each([
    ['order-0.grib1', 17],
    ['rows.grib1', 17],
    ['runs.grib1', 17],
  ])('%s, 16 777 215 groups of no bits declared: refused before room is made for them', (file, octet) => {
    const { bytes } = samples.find((each) => each.file === file) ?? { bytes: new Uint8Array() };
    const message = openMessage(bytes.slice());
    const { startIndex } = message.data;
    message.bytes.set([0xff, 0xff, 0xff, 0xff, 0xff], startIndex + octet - 1);
    message.bytes[startIndex + 10] = 0;
    if (file.startsWith('order')) message.bytes.set([0, 0], startIndex + 21);
    expect(unpackNumbers(message)).toHaveProperty('code', 'grib.groups-inconsistent');
  });

  it('four thousand million groups of no bits in Section 5: refused before room is made for them', () => {
    const { bytes } = samples.find(({ file }) => file === 'template-50002.grib2') ?? { bytes: new Uint8Array() };
    const message = openMessage(bytes.slice());
    const { startIndex } = message.representation;
    message.bytes[startIndex + 20] = 0;
    message.bytes.set([0xff, 0xff, 0xff, 0xff], startIndex + 21);
    message.bytes.set([0, 0], startIndex + 29);
    expect(unpackNumbers(message)).toHaveProperty('code', 'grib.groups-inconsistent');
  });
});
