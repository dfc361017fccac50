/** Some hundred damaged messages, the short form of `npm run mutate-grib`: an answer for every one. */
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { TEMPLATE_SHAPES } from '../../lib/grib/edition-2/product-shapes.ts';
import { mutant } from '../../scripts/mutate-grib/mutations.ts';
import { EXPECTED_KINDS, kindsOf } from '../../scripts/mutate-grib/kinds.ts';
import { readSamples } from '../../scripts/mutate-grib/samples.ts';
import { sweepOf } from '../../scripts/mutate-grib/sweep.ts';
import { tryInput } from '../../scripts/mutate-grib/try-input.ts';
import { longOrShort } from '../long-run.ts';

const SEED = 20_261_125;
const COUNT = longOrShort(2000, 350);
/** One input of so many. */
const SWEPT_EVERY = longOrShort(50, 600);
/** Longer samples only make the test slow. */
const MOST_OCTETS = 6000;

const golden = fileURLToPath(new URL('../golden', import.meta.url));
const allSamples = readSamples([golden]);
const samples = allSamples.filter(({ bytes }) => bytes.length <= MOST_OCTETS);
const indices = Array.from({ length: COUNT }, (_, index) => index);

describe('damaged messages', () => {
  it('samples: every kind of packing, grid, product and file that is read or refused by name', () => {
    const shown = new Set(allSamples.flatMap(kindsOf));
    expect(EXPECTED_KINDS.filter((kind) => !shown.has(kind))).toEqual([]);
    // No template that is read is left out of the list.
    const products = [...TEMPLATE_SHAPES.keys()].map((number) => `4.${number}`);
    expect(products.filter((kind) => !EXPECTED_KINDS.includes(kind))).toEqual([]);
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

  it('of the sweep, every so many: the same promises kept', () => {
    const sweep = sweepOf(samples);
    const faults: string[] = [];
    for (let index = SEED % SWEPT_EVERY; index < sweep.count; index += SWEPT_EVERY) {
      const { bytes, story } = sweep.input(index);
      const { fault } = tryInput(bytes);
      if (fault !== null) faults.push(`${index}: ${story}: ${fault}`);
    }
    expect(sweep.count).toBeGreaterThan(100_000);
    expect(faults).toEqual([]);
  });
});
