/** Whatever `aec`, the command of libaec, codes: the same samples come back. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { referenceTool } from '../reference-tools.ts';
import { code, decodeByCommand, samplesOf } from './ccsds-coder.ts';
import { draws, makeSamples, SAMPLE_KINDS, type SampleKind } from './ccsds-sample-kinds.ts';
import { longOrShort } from '../long-run.ts';

const aec = referenceTool('aec');
const EVERY = longOrShort(1, 6);
const kinds = Object.keys(SAMPLE_KINDS) as SampleKind[];

describe.skipIf(aec === null)('unpackCcsds against aec', () => {
  let folder = '';
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), 'slatch-ccsds-'));
  });
  afterAll(() => rmSync(folder, { recursive: true, force: true }));

  const next = draws(121);
  const oneOf = <T>(list: readonly [T, ...T[]]): T => list[Math.floor(next() * list.length)] ?? list[0];

  it.each(Array.from({ length: 32 }, (_, i) => i + 1))('%i bits: the samples that were coded', (bitsPerValue) => {
    // Some of the kinds, by turns: starting the command is what takes time.
    for (const kind of kinds.filter((_, i) => (i + bitsPerValue) % EVERY === 0)) {
      const restricted = bitsPerValue <= 4 ? oneOf([0, 16]) : 0;
      const coding = {
        bitsPerValue,
        optionMaskCode: oneOf([0, 8, 8, 8]) + restricted,
        blockSampleCount: oneOf([8, 16, 32, 64]),
        intervalBlockCount: oneOf([1, 2, 128, 4096]),
      };
      const samples = makeSamples(kind, bitsPerValue, 700 + Math.floor(next() * 2000));
      const stream = code(aec ?? '', folder, { samples, coding });
      expect(samplesOf(stream, coding, samples.length), JSON.stringify({ kind, coding })).toEqual(samples);
    }
  });

  it.each([1, 3, 8, 12, 24, 32])('%i bits, padded intervals: the samples that the command decodes', (bitsPerValue) => {
    const coding = { bitsPerValue, optionMaskCode: 8 + 32, blockSampleCount: 16, intervalBlockCount: 8 };
    const samples = makeSamples('smooth', bitsPerValue, 600);
    const stream = code(aec ?? '', folder, { samples, coding });
    expect(decodeByCommand(aec ?? '', folder, { stream, coding }).slice(0, samples.length)).toEqual(samples);
    expect(samplesOf(stream, coding, samples.length)).toEqual(samples);
  });
});
