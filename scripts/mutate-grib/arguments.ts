/** Words after the name of the script. */
import { parseArgs } from 'node:util';

export interface MutateArguments {
  readonly count: number;
  readonly seed: number;
  /** The one input to try, or null for all. */
  readonly only: number | null;
  readonly folders: readonly string[];
  /** Every plain damage one by one, instead of drawn ones. */
  readonly isSweep: boolean;
}

/** Samples of the project, from its folder. */
const OWN_FOLDERS = ['tests/golden', 'sample-forecasts'];
const DEFAULT_COUNT = 100_000;
const DEFAULT_SEED = 1;

/** Given folders are added to the project's own. @throws Error with a text for the user when a word is not understood */
export function mutateArguments(words: readonly string[]): MutateArguments {
  const { values, positionals } = parseArgs({
    args: [...words],
    options: {
      count: { type: 'string' },
      seed: { type: 'string' },
      only: { type: 'string' },
      sweep: { type: 'boolean' },
    },
    allowPositionals: true,
  });
  return {
    count: wholeNumber('--count', values.count) ?? DEFAULT_COUNT,
    seed: wholeNumber('--seed', values.seed) ?? DEFAULT_SEED,
    only: wholeNumber('--only', values.only),
    folders: [...OWN_FOLDERS, ...positionals],
    isSweep: values.sweep === true,
  };
}

function wholeNumber(option: string, word: string | undefined): number | null {
  if (word === undefined) return null;
  if (!/^\d{1,9}$/.test(word)) throw new Error(`${option} ${word}: expected a whole number`);
  return Number(word);
}
