/** Instants in UTC, half-open intervals, slots. The only user of luxon. */
import { DateTime, Settings } from 'luxon';
import { failed, ok, type Result } from '../result/index.ts';

Settings.throwOnInvalid = true;

declare module 'luxon' {
  interface TSSettings {
    throwOnInvalid: true;
  }
}

export const MS_PER_MIN = 60_000;
export const MS_PER_H = 3_600_000;

/** Half-open interval [start, end) of epoch milliseconds UTC. */
export interface UtcInterval {
  readonly startEpochMs: number;
  readonly endEpochMs: number;
}

/** An interval; throws when it does not end after it starts (a mistake of ours, not of the user). */
export function utcInterval(startEpochMs: number, endEpochMs: number): UtcInterval {
  if (!(endEpochMs > startEpochMs)) throw new Error('an interval must end after it starts');
  return { startEpochMs, endEpochMs };
}

const UTC_TEXT = /^\d{4}-\d{2}-\d{2}T\d{2}:\d{2}(:\d{2}(\.\d{1,3})?)?(Z|[+-]\d{2}:\d{2})$/;

/** As plans and forecasts write them: a page reads thousands, and luxon takes twenty times as long. */
const PLAIN_TEXT = /^(\d{4})-(\d{2})-(\d{2})T([01]\d|2[0-3]):([0-5]\d)(?::([0-5]\d))?Z$/;

/** null: not of the plain form, or no day of the calendar. */
function plainEpochMs(text: string): number | null {
  const found = PLAIN_TEXT.exec(text);
  if (found === null) return null;
  const [year = 0, month = 0, day = 0, hour = 0, minute = 0, second = 0] = found
    .slice(1)
    .map((part) => Number(part ?? 0));
  const epochMs = Date.UTC(year, month - 1, day, hour, minute, second);
  // 30 February would be 2 March, the year 27 would be 1927.
  return new Date(epochMs).toISOString().startsWith(text.slice(0, 10)) ? epochMs : null;
}

/**
 * Reads an ISO 8601 instant with an explicit offset (`2026-05-27T20:12Z`).
 *
 * @param where named in the problem
 * @returns epoch milliseconds UTC, or `time.not-an-instant`
 */
export function parseUtc(text: string, where: string): Result<number> {
  const plain = plainEpochMs(text);
  if (plain !== null) return ok(plain);
  if (UTC_TEXT.test(text)) {
    try {
      return ok(DateTime.fromISO(text, { zone: 'utc' }).toMillis());
    } catch {
      // Well-formed but impossible (month 13): reported below with the rest.
    }
  }
  return failed({
    code: 'time.not-an-instant',
    where,
    what: `"${text}" is not an instant.`,
    expected: 'ISO 8601 with Z or an offset, such as 2026-05-27T20:12Z',
    remedy: 'Write date, T, time and Z.',
  });
}

/** ISO 8601 to the minute: `2026-05-27T20:12Z`; seconds are added only when they are not zero. */
export function formatUtc(epochMs: number): string {
  const iso = new Date(epochMs).toISOString();
  return iso.endsWith(':00.000Z') ? `${iso.slice(0, 16)}Z` : `${iso.slice(0, 19)}Z`;
}

/** Text of an instant on a clock `offsetMin` ahead of UTC, in luxon tokens: `formatAt(ms, 720, 'ccc dd LLL HH:mm')`. */
export function formatAt(epochMs: number, offsetMin: number, tokens: string): string {
  return DateTime.fromMillis(epochMs + offsetMin * MS_PER_MIN, { zone: 'utc', locale: 'en' }).toFormat(tokens);
}

/** Slot grid: slot i begins at `firstEpochMs + i · slotMin`; slots lie on UTC multiples of `slotMin`. */
export interface SlotGrid {
  readonly firstEpochMs: number;
  readonly slotMin: number;
  /** Number of slot instants, the last one included. */
  readonly slotCount: number;
}

/** The slots from the first multiple of `slotMin` at or after `fromEpochMs` to the last at or before `toEpochMs`. */
export function slotGrid(span: { fromEpochMs: number; toEpochMs: number }, slotMin: number): SlotGrid {
  const stepMs = slotMin * MS_PER_MIN;
  const firstEpochMs = Math.ceil(span.fromEpochMs / stepMs) * stepMs;
  const slotCount = Math.max(0, Math.floor((span.toEpochMs - firstEpochMs) / stepMs) + 1);
  return { firstEpochMs, slotMin, slotCount };
}

/** Instant of a slot [epoch ms]. */
export function slotEpochMs(grid: SlotGrid, slotIndex: number): number {
  return grid.firstEpochMs + slotIndex * grid.slotMin * MS_PER_MIN;
}
