/** Calendar dates as both editions write them: year, month, day, hour, minute, second, in UTC. */

/** A date of the civil calendar, UTC. */
export interface CalendarDate {
  readonly year: number;
  /** 1 to 12. */
  readonly month: number;
  readonly day: number;
  readonly hour: number;
  readonly minute: number;
  readonly second: number;
}

/** Epoch milliseconds of a date, or null when the calendar has no such date (30 February, hour 25). */
export function epochMsOfDate(date: CalendarDate): number | null {
  const { year, month, day, hour, minute, second } = date;
  if (year < 1 || hour > 23 || minute > 59 || second > 59) return null;
  const instant = new Date(0);
  // Not Date.UTC, which takes the years 1 to 99 for 1901 to 1999.
  instant.setUTCFullYear(year, month - 1, day);
  if (instant.getUTCMonth() !== month - 1 || instant.getUTCDate() !== day) return null;
  return instant.setUTCHours(hour, minute, second);
}

/** Date of an instant; whole seconds. */
export function dateOfEpochMs(epochMs: number): CalendarDate {
  const instant = new Date(epochMs);
  return {
    year: instant.getUTCFullYear(),
    month: instant.getUTCMonth() + 1,
    day: instant.getUTCDate(),
    hour: instant.getUTCHours(),
    minute: instant.getUTCMinutes(),
    second: instant.getUTCSeconds(),
  };
}

/** `2026-05-27 24:10:00`, as written, for messages about impossible dates. */
export function formatDate(date: CalendarDate): string {
  const two = (value: number): string => String(value).padStart(2, '0');
  const day = `${String(date.year).padStart(4, '0')}-${two(date.month)}-${two(date.day)}`;
  return `${day} ${two(date.hour)}:${two(date.minute)}:${two(date.second)}`;
}
