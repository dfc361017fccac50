/** Words after the name of the script. */
import { parseArgs } from 'node:util';

export const HTTP = 'http';

export interface MutateTextArguments {
  /** Formats to try, in order. */
  readonly formats: readonly string[];
  readonly count: number;
  readonly seed: number;
  /** The one input to try, or null for all. */
  readonly only: number | null;
  readonly workerCount: number;
}

const DEFAULT_COUNT = 100_000;
const DEFAULT_SEED = 1;
const MOST_WORKERS = 8;

/** @throws Error with a text for the user when a word is not understood */
export function mutateTextArguments(words: readonly string[], known: readonly string[]): MutateTextArguments {
  const option = { type: 'string' } as const;
  const { values } = parseArgs({
    args: [...words],
    options: { format: option, count: option, seed: option, only: option, workers: option },
  });
  const only = wholeNumber('--only', values.only);
  const all = [...known, HTTP];
  const asked = values.format ?? 'all';
  const formats = asked === 'all' ? all : asked.split(',');
  const strange = formats.find((name) => !all.includes(name));
  if (strange !== undefined) throw new Error(`--format ${strange}: expected all, or some of ${all.join(',')}`);
  if (only !== null && formats.length > 1) throw new Error('--only goes with one --format');
  return {
    formats,
    count: wholeNumber('--count', values.count) ?? DEFAULT_COUNT,
    seed: wholeNumber('--seed', values.seed) ?? DEFAULT_SEED,
    only,
    workerCount: Math.min(MOST_WORKERS, Math.max(1, wholeNumber('--workers', values.workers) ?? 2)),
  };
}

function wholeNumber(option: string, word: string | undefined): number | null {
  if (word === undefined) return null;
  if (!/^\d{1,9}$/.test(word)) throw new Error(`${option} ${word}: expected a whole number`);
  return Number(word);
}
