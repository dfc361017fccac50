import { MS_PER_H, MS_PER_MIN } from '../../time/index.ts';
import { formatBaseTime, parseBaseTime } from '../frames/base-time.ts';

/** Instants are sent to the minute; nearer to the base time than this, day, hour and minute say them whatever the months. */
const DAYS_ALONE_MS = 13 * 24 * MS_PER_H;
const DAY_MS = 24 * MS_PER_H;

/** The nearest whole minute [epoch ms]. */
export const toMinute = (epochMs: number): number => Math.round(epochMs / MS_PER_MIN) * MS_PER_MIN;

/** The whole minute before [epoch ms]: what has happened never comes to lie in the future. */
export const wholeMinute = (epochMs: number): number => Math.floor(epochMs / MS_PER_MIN) * MS_PER_MIN;

/**
 * An instant as `DDHHMM`: the one of that day of a month, hour and minute nearest to the base time. Farther off than 13
 * days it is ten digits, `YYMMDDHHMM`.
 */
export function formatInstant(epochMs: number, baseEpochMs: number): string {
  const whole = formatBaseTime(epochMs);
  return Math.abs(epochMs - baseEpochMs) <= DAYS_ALONE_MS ? whole.slice(4) : whole;
}

/** An instant after another of the same item: `HHMM` where it is less than a day later, else as `formatInstant`. */
export function formatLater(
  epochMs: number,
  of: { readonly afterEpochMs: number; readonly baseEpochMs: number },
): string {
  const laterMs = epochMs - of.afterEpochMs;
  return laterMs >= 0 && laterMs < DAY_MS ? formatBaseTime(epochMs).slice(6) : formatInstant(epochMs, of.baseEpochMs);
}

/** The instant [epoch ms] of 4, 6 or 10 digits; four are the first such time of day at or after the one before. Null: none. */
export function parseInstant(
  text: string,
  of: { readonly afterEpochMs: number; readonly baseEpochMs: number },
): number | null {
  if (text.length === 10) return parseBaseTime(text);
  if (!/^(\d{4}|\d{6})$/.test(text)) return null;
  const [hour, minute] = [Number(text.slice(-4, -2)), Number(text.slice(-2))];
  if (hour > 23 || minute > 59) return null;
  return text.length === 4 ? firstAfter(of.afterEpochMs, hour * 60 + minute) : nearest(text, of.baseEpochMs);
}

function firstAfter(afterEpochMs: number, timeOfDayMin: number): number {
  const midnight = Math.floor(afterEpochMs / DAY_MS) * DAY_MS;
  const sameDay = midnight + timeOfDayMin * MS_PER_MIN;
  return sameDay >= afterEpochMs ? sameDay : sameDay + DAY_MS;
}

/** Of the months about the base time, the one that puts the instant nearest to it; months without such a day are passed over. */
function nearest(text: string, baseEpochMs: number): number | null {
  const base = new Date(baseEpochMs);
  const instants = [-1, 0, 1].flatMap((months) => {
    const month = new Date(Date.UTC(base.getUTCFullYear(), base.getUTCMonth() + months, 1));
    const instant = parseBaseTime(`${month.toISOString().slice(2, 7).replace('-', '')}${text}`);
    return instant === null ? [] : [instant];
  });
  const [first, ...rest] = instants;
  if (first === undefined) return null;
  return rest.reduce(
    (best, instant) => (Math.abs(instant - baseEpochMs) < Math.abs(best - baseEpochMs) ? instant : best),
    first,
  );
}
