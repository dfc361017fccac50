import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
import type { ForecastHours } from '../forecast-hours.ts';

export interface DepartureAsked {
  /** As it was written; empty: now, or where the forecast does not hold now, its first hour. */
  readonly text: string;
  /** What the text is on, unless it ends in Z. */
  readonly clock: 'ship' | 'utc';
  readonly shipTimeOffsetMin: number;
  /** null: none is chosen, or it does not say. */
  readonly hours: ForecastHours | null;
  readonly nowEpochMs: number;
}

/** The instant of departure [epoch ms], to the minute; or `new.departure`, `new.departure-late`. */
export function departureOf({ text, clock, shipTimeOffsetMin, hours, nowEpochMs }: DepartureAsked): Result<number> {
  const nowMinEpochMs = Math.floor(nowEpochMs / MS_PER_MIN) * MS_PER_MIN;
  if (text.trim() === '') {
    const isNowHeld = hours === null || (nowMinEpochMs >= hours.firstEpochMs && nowMinEpochMs < hours.endEpochMs);
    return ok(isNowHeld ? nowMinEpochMs : hours.firstEpochMs);
  }
  const [, date = '', time = '', zone = ''] =
    /^(\d{4}-\d\d-\d\d)[T ]+(\d\d:?\d\d)(?::\d\d)?\s*(z|utc)?$/i.exec(text.trim()) ?? [];
  const read = parseUtc(`${date}T${time.length === 4 ? `${time.slice(0, 2)}:${time.slice(2)}` : time}Z`, '');
  if (!read.ok) return failed(notATime(text));
  const atEpochMs = clock === 'utc' || zone !== '' ? read.value : read.value - shipTimeOffsetMin * MS_PER_MIN;
  return hours !== null && atEpochMs >= hours.endEpochMs ? failed(late(atEpochMs, hours)) : ok(atEpochMs);
}

const notATime = (text: string): Problem => ({
  code: 'new.departure',
  where: 'departure',
  what: `"${text}" is no date and time.`,
  expected: 'such as 2026-05-27 18:00, on the clock chosen below it; nothing for the default',
  remedy: 'Write year, month, day, and the time of day with four figures.',
});

const late = (atEpochMs: number, { firstEpochMs, endEpochMs }: ForecastHours): Problem => ({
  code: 'new.departure-late',
  where: 'departure',
  what: `The departure, ${formatUtc(atEpochMs)}, is after the end of the forecast.`,
  expected: `from ${formatUtc(firstEpochMs)} to before ${formatUtc(endEpochMs)}`,
  remedy: 'Correct the departure, or add a forecast that holds it.',
});

/** A clock that runs has left the forecast behind; null: it has not. */
export function clockProblem(hours: ForecastHours | null, nowEpochMs: number): Problem | null {
  if (hours === null || nowEpochMs < hours.endEpochMs) return null;
  return {
    code: 'new.forecast-over',
    where: 'clock',
    what: `The forecast ended ${formatUtc(hours.endEpochMs)}, and it is ${formatUtc(nowEpochMs)}: no hour of it is left to plan in.`,
    expected: 'a forecast that reaches beyond now, or a clock held at the departure',
    remedy: 'Add a newer forecast; to try things out with this one, hold the clock.',
  };
}
