/**
 * Texts that lie, some of every format with a fixed seed: every one is answered, in plain words, and what is accepted is the
 * same once written and read back. `npm run mutate-text` tries a hundred thousand of each. What counts as a fault is ours.
 */
import { describe, expect, it } from 'vitest';
import { TEXT_FORMATS } from '../../scripts/mutate-text/formats.ts';
import { sampleFaults, tryTexts } from '../../scripts/mutate-text/try-text.ts';
import { longOrShort } from '../long-run.ts';

const SEED = 4;
const LONG_COUNT = 5000;
/** Formats that read slowly are tried less. */
const COUNTS: Readonly<Record<string, number>> = { passage: 150, plan: 60, message: 150, digest: 150 };
const USUAL_COUNT = 300;

describe.each(Object.keys(TEXT_FORMATS))('%s', (name) => {
  const format = TEXT_FORMATS[name]?.();
  if (format === undefined) throw new Error(`no format ${name}`);
  const toIndex = longOrShort(LONG_COUNT, COUNTS[name] ?? USUAL_COUNT);

  it('every sample as it is: accepted, and the same once written again', () => {
    expect(sampleFaults(format)).toEqual([]);
  });

  it(`${toIndex} damaged samples: no fault, most of them refused`, () => {
    const { failures, codes, triedCount } = tryTexts(format, {
      seed: SEED,
      fromIndex: 0,
      toIndex,
      stepCount: 1,
      skip: [],
    });
    expect(failures).toEqual([]);
    expect(triedCount).toBe(toIndex);
    expect(Object.keys(codes).length).toBeGreaterThan(3);
  });
});
