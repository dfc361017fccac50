import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { formatAt, formatUtc, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
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

/** The instant of departure [epoch ms], to the minute; or `new.departure`, `new.departure-early`, `new.departure-late`. */
export function departureOf({ text, clock, shipTimeOffsetMin, hours, nowEpochMs }: DepartureAsked): Result<number> {
  const nowMinEpochMs = Math.floor(nowEpochMs / MS_PER_MIN) * MS_PER_MIN;
  if (text.trim() === '') {
    const isNowHeld = hours === null || (nowMinEpochMs >= hours.firstEpochMs && nowMinEpochMs < hours.endEpochMs);
    return ok(isNowHeld ? nowMinEpochMs : hours.firstEpochMs);
  }
  const read = instantOf(text);
  if (read === null) return failed(notATime(text));
  const atEpochMs = clock === 'utc' || read.isUtc ? read.epochMs : read.epochMs - shipTimeOffsetMin * MS_PER_MIN;
  if (hours === null) return ok(atEpochMs);
  const told = toldOf(atEpochMs, hours, shipTimeOffsetMin);
  if (atEpochMs < hours.firstEpochMs) return failed(early(told));
  return atEpochMs >= hours.endEpochMs ? failed(late(told)) : ok(atEpochMs);
}

/** A date and time of day as if they were UTC, and whether they say so; null: they are none. */
function instantOf(text: string): { readonly epochMs: number; readonly isUtc: boolean } | null {
  const [, date = '', time = '', zone = ''] =
    /^(\d{4}-\d\d-\d\d)[T ]+(\d\d:?\d\d)(?::\d\d)?\s*(z|utc)?$/i.exec(text.trim()) ?? [];
  const read = parseUtc(`${date}T${time.length === 4 ? `${time.slice(0, 2)}:${time.slice(2)}` : time}Z`, '');
  return read.ok ? { epochMs: read.value, isUtc: zone !== '' } : null;
}

/** A departure and the hours of the forecast in words, on both clocks. */
interface Told {
  readonly departure: string;
  readonly first: string;
  readonly expected: string;
}

function toldOf(atEpochMs: number, { firstEpochMs, endEpochMs }: ForecastHours, shipTimeOffsetMin: number): Told {
  const both = (epochMs: number): string =>
    `${formatAt(epochMs, shipTimeOffsetMin, 'ccc d LLL HH:mm')} ship’s time (${formatAt(epochMs, 0, 'ccc d LLL HH:mm')} UTC)`;
  const expected = `from ${both(firstEpochMs)} to before ${both(endEpochMs)}`;
  return { departure: both(atEpochMs), first: both(firstEpochMs), expected };
}

const notATime = (text: string): Problem => ({
  code: 'new.departure',
  where: 'departure',
  what: `"${text}" is no date and time.`,
  expected: 'such as 2026-05-27 18:00, on the clock chosen below it; nothing for the default',
  remedy: 'Write year, month, day, and the time of day with four figures.',
});

const early = ({ departure, first, expected }: Told): Problem => ({
  code: 'new.departure-early',
  where: 'departure',
  what: `The departure, ${departure}, is before the first hour of the forecast, ${first}.`,
  expected,
  remedy: 'Correct the departure, or add a forecast that holds it; with a run begun earlier, enter where she is now.',
});

const late = ({ departure, expected }: Told): Problem => ({
  code: 'new.departure-late',
  where: 'departure',
  what: `The departure, ${departure}, is after the end of the forecast.`,
  expected,
  remedy: 'Correct the departure, or add a forecast that holds it.',
});

/** A clock that runs has left the forecast behind; null: it has not. */
export function clockProblem(hours: ForecastHours | null, nowEpochMs: number): Problem | null {
  if (hours === null || nowEpochMs < hours.endEpochMs) return null;
  const nowMinEpochMs = Math.floor(nowEpochMs / MS_PER_MIN) * MS_PER_MIN;
  return {
    code: 'new.forecast-over',
    where: 'clock',
    what: `The forecast ended ${formatUtc(hours.endEpochMs)}, and it is ${formatUtc(nowMinEpochMs)}: no hour of it is left to plan in.`,
    expected: 'a forecast that reaches beyond now, or a clock held at the departure',
    remedy: 'Add a newer forecast; to try things out with this one, hold the clock.',
  };
}
