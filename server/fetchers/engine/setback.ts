import type { Problem } from '../../../lib/result/index.ts';
import type { Answer } from './open-answer.ts';
import { badStatus } from './problems.ts';
import { isPassing, retryAfterMs } from './retry.ts';

/** What a request came to that brought no octets of the file: another try may, or none will. */
export interface Setback {
  readonly isPassing: boolean;
  readonly problem: Problem;
  /** Time the source asks for before the next try; null: none. */
  readonly askedMs: number | null;
}

export type Tried<T> = { readonly ok: true; readonly value: T } | { readonly ok: false; readonly setback: Setback };

/** A problem on the line as a setback: what breaks may hold next time. */
export const setbackOf = (problem: Problem): Setback => ({
  isPassing: ['fetch.line-broken', 'fetch.no-answer'].includes(problem.code),
  problem,
  askedMs: null,
});

/** An answer of a status that brings nothing. */
export const statusSetback = (address: string, answer: Answer, nowEpochMs: number): Setback => ({
  isPassing: isPassing(answer.status),
  problem: badStatus(address, answer.status),
  askedMs: retryAfterMs(answer.headers.get('retry-after'), nowEpochMs),
});

/** Another try may bring it. */
export const again = <T>(problem: Problem): Tried<T> => ({
  ok: false,
  setback: { isPassing: true, problem, askedMs: null },
});

/** No try will bring it. */
export const stop = <T>(problem: Problem): Tried<T> => ({
  ok: false,
  setback: { isPassing: false, problem, askedMs: null },
});
