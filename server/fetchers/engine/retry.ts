import { MS_PER_H } from '../../../lib/time/index.ts';

const FIRST_WAIT_MS = 1000;
const LONGEST_WAIT_MS = 60_000;
/** A source that asks for more patience than this is told to the user instead. */
export const LONGEST_ASKED_WAIT_MS = MS_PER_H / 6;

/**
 * How long to wait before a new try [ms]: 1 s doubled with each try in vain, at most a minute, spread at random over the
 * upper half of it so that many boats do not come back together; never before the time the source asked for.
 *
 * @param vainCount tries in vain so far, from 1
 * @param random from 0 to 1
 */
export function waitBeforeTry(vainCount: number, random: number, askedMs: number | null): number {
  const wholeMs = Math.min(LONGEST_WAIT_MS, FIRST_WAIT_MS * 2 ** Math.min(30, vainCount - 1));
  return Math.max(askedMs ?? 0, Math.round(wholeMs * (0.5 + 0.5 * random)));
}

/**
 * The time a source asks to be left alone [ms], by its `Retry-After`: seconds, or a date of RFC 9110 §5.6.7. Null when it
 * asks for none, or what it says is neither.
 */
export function retryAfterMs(header: string | null, nowEpochMs: number): number | null {
  if (header === null) return null;
  const text = header.trim();
  if (/^\d{1,9}$/.test(text)) return Number(text) * 1000;
  const untilEpochMs = /^[A-Z][a-z]{2},? /.test(text) ? Date.parse(text) : Number.NaN;
  return Number.isNaN(untilEpochMs) ? null : Math.max(0, untilEpochMs - nowEpochMs);
}

/** Answers that may be different next time (RFC 9110 §15, RFC 6585 §4, RFC 8470 §5.2). */
export const isPassing = (status: number): boolean => [304, 408, 425, 429, 500, 502, 503, 504].includes(status);
