import { formatAt, MS_PER_MIN, parseUtc } from '../../lib/time/index.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

/** How instants are written for one ship, her own time first, UTC where it is said; and in which units figures are read. */
export interface TimeTexts {
  /** `Fri 11:00` */
  readonly dayTime: (epochMs: number) => string;
  /** `11:00` */
  readonly time: (epochMs: number) => string;
  /** `Fri 29 May` */
  readonly day: (epochMs: number) => string;
  /** `Fri 29 May 11:00` */
  readonly full: (epochMs: number) => string;
  /** `Thu 23:00 UTC` */
  readonly utc: (epochMs: number) => string;
  /** `Fri 08:00 and 13:20`; the second weekday only where it differs. */
  readonly span: (span: { fromEpochMs: number; toEpochMs: number }, word: string) => string;
  readonly units: ShownUnits;
}

/** @param units of the reader; absent: those of forms and files */
export function timeTexts(shipTimeOffsetMin: number, units: ShownUnits = PLAIN_UNITS): TimeTexts {
  const at = (tokens: string) => (epochMs: number) => formatAt(epochMs, shipTimeOffsetMin, tokens);
  const dayTime = at('ccc HH:mm');
  const time = at('HH:mm');
  const day = at('ccc d LLL');
  return {
    dayTime,
    time,
    day,
    full: at('ccc d LLL HH:mm'),
    utc: (epochMs) => `${formatAt(epochMs, 0, 'ccc HH:mm')} UTC`,
    span: ({ fromEpochMs, toEpochMs }, word) => {
      const sameDay = day(fromEpochMs) === day(toEpochMs);
      return `${dayTime(fromEpochMs)} ${word} ${sameDay ? time(toEpochMs) : dayTime(toEpochMs)}`;
    },
    units,
  };
}

/** Instants read before: a plan has some hundred, and a page asks for each of them for every hour it shows. */
const knownEpochMs = new Map<string, number>();
const MOST_KNOWN = 10_000;

/** Epoch of an instant the plan itself published; it throws where that is not an instant, for the mistake is ours. */
export function epochOf(utc: string): number {
  const known = knownEpochMs.get(utc);
  if (known !== undefined) return known;
  const parsed = parseUtc(utc, 'plan');
  if (!parsed.ok) throw new Error(parsed.problems[0].what);
  if (knownEpochMs.size >= MOST_KNOWN) knownEpochMs.clear();
  knownEpochMs.set(utc, parsed.value);
  return parsed.value;
}

/** `UTC+12`, `UTC−3:30`, `UTC` */
export function offsetText(offsetMin: number): string {
  if (offsetMin === 0) return 'UTC';
  const minutes = Math.abs(offsetMin);
  const rest = minutes % 60 === 0 ? '' : `:${String(minutes % 60).padStart(2, '0')}`;
  return `UTC${offsetMin < 0 ? '−' : '+'}${Math.floor(minutes / 60)}${rest}`;
}

/** `50 min`, `4 h`, `4 h 10 min`, rounded to the minute. */
export function durationText(minutes: number): string {
  const whole = Math.round(minutes);
  if (whole < 60) return `${whole} min`;
  return whole % 60 === 0 ? `${whole / 60} h` : `${Math.floor(whole / 60)} h ${whole % 60} min`;
}

/** Minutes between two published instants. */
export const minutesBetween = (startUtc: string, endUtc: string): number =>
  (epochOf(endUtc) - epochOf(startUtc)) / MS_PER_MIN;
