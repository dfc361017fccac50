/** Some hundred damaged messages, the short form of `npm run mutate-grib`: an answer for every one. */
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { mutant } from '../../scripts/mutate-grib/mutations.ts';
import { readSamples } from '../../scripts/mutate-grib/samples.ts';
import { tryInput } from '../../scripts/mutate-grib/try-input.ts';
import { longOrShort } from '../long-run.ts';

const SEED = 20_261_125;
const COUNT = longOrShort(2000, 700);
/** Longer samples only make the test slow. */
const MOST_OCTETS = 6000;

const golden = fileURLToPath(new URL('../golden', import.meta.url));
const samples = readSamples([golden]).filter(({ bytes }) => bytes.length <= MOST_OCTETS);
const indices = Array.from({ length: COUNT }, (_, index) => index);

describe('damaged messages', () => {
  it('samples: both editions are among them', () => {
    expect(samples.length).toBeGreaterThan(60);
    expect(new Set(samples.map(({ bytes }) => bytes[7]))).toEqual(new Set([1, 2]));
  });

  it('same seed and index: the same octets', () => {
    for (const index of indices.slice(0, 50)) {
      const [first, second] = [mutant(samples, { seed: SEED, index }), mutant(samples, { seed: SEED, index })];
      expect(Buffer.from(first.bytes).equals(Buffer.from(second.bytes))).toBe(true);
    }
  });

  it('every input: values in the right number and finite, or problems, and nothing thrown', () => {
    const inputsOfCode = new Map<string, number>();
    const faults: string[] = [];
    for (const index of indices) {
      const { bytes, story } = mutant(samples, { seed: SEED, index });
      const { codes, fault } = tryInput(bytes);
      if (fault !== null) faults.push(`${index}: ${story}: ${fault}`);
      for (const code of codes) inputsOfCode.set(code, (inputsOfCode.get(code) ?? 0) + 1);
    }
    expect(faults).toEqual([]);
    // The damage reaches past the listing, and comes to many different answers.
    expect(inputsOfCode.get('decoded')).toBeGreaterThan(COUNT / 5);
    expect(inputsOfCode.size).toBeGreaterThan(15);
  });
});
