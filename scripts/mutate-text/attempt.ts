/** What came of one input. */
import type { Problem } from '../../lib/result/index.ts';
import { problemsFault } from './judge-problems.ts';

export interface Attempt {
  /** Codes of the problems, each once; `accepted` where it was read. */
  readonly codes: readonly string[];
  /** A promise broken, in words; null when all were kept. */
  readonly fault: string | null;
}

/** The codes of a refusal, and what is wrong with its words. */
export const refused = (problems: readonly Problem[], input: string): Attempt => ({
  codes: [...new Set(problems.map(({ code }) => code))],
  fault: problemsFault(problems, input),
});

export const accepted = (fault: string | null): Attempt => ({ codes: ['accepted'], fault });

/** Where a value differs from another that was written and read back, as JSON; null: nowhere. */
export function differenceOf(before: unknown, after: unknown): string | null {
  const [first, second] = [JSON.stringify(before) ?? '', JSON.stringify(after) ?? ''];
  if (first === second) return null;
  let at = 0;
  while (first[at] === second[at]) at += 1;
  const from = Math.max(0, at - 60);
  return `read back otherwise: ${first.slice(from, at + 60)} became ${second.slice(from, at + 60)}`;
}

/** The path of a number that is none in a value, or null. */
export function unfinishedNumber(value: unknown, path = 'value'): string | null {
  if (typeof value === 'number') return Number.isFinite(value) ? null : `${path} is ${value}`;
  if (typeof value !== 'object' || value === null || ArrayBuffer.isView(value)) return null;
  for (const [key, one] of Object.entries(value)) {
    const found = unfinishedNumber(one, `${path}.${key}`);
    if (found !== null) return found;
  }
  return null;
}
