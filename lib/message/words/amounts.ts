import { formatAt, MS_PER_MIN } from '../../time/index.ts';

/** `Thu 28 May 2026 18:50 UTC`: weekday and year, so that no day is taken for another. */
export const longTime = (epochMs: number): string => `${formatAt(epochMs, 0, 'ccc d LLL yyyy HH:mm')} UTC`;

/** `Thu 28 May 18:50`: UTC, where that is said before. */
export const shortTime = (epochMs: number): string => formatAt(epochMs, 0, 'ccc d LLL HH:mm');

/** `Thu 28 May 18:50 to 22:30`, with the day where it is another. */
export function spanTime(startEpochMs: number, endEpochMs: number): string {
  const [start, end] = [shortTime(startEpochMs), shortTime(endEpochMs)];
  const isSameDay = start.slice(0, -5) === end.slice(0, -5);
  return `${start} to ${isSameDay ? end.slice(-5) : end}`;
}

/** `90 of 100`. */
export const ofHundred = (probability: number): string => `${Math.round(probability * 100)} of 100`;

/** `2 h 30 min`. */
export function lengthText(lengthMs: number): string {
  const minutes = Math.round(lengthMs / MS_PER_MIN);
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours === 0) return `${rest} min`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** `the job "drop"`: ids are all a message carries. */
export const quoted = (id: string): string => `"${id}"`;

/** What the reader calls the ids of a message, id to name. An id it does not know stands alone. */
export interface MessageNames {
  readonly jobs: Readonly<Record<string, string>>;
  readonly handlings: Readonly<Record<string, string>>;
  readonly sailStates: Readonly<Record<string, string>>;
}

export const NO_NAMES: MessageNames = { jobs: {}, handlings: {}, sailStates: {} };

/** `"drop" (Drop the mainsail)`: the id that was sent, and what it is called here. */
export function named(id: string, names: Readonly<Record<string, string>>): string {
  const name = Object.hasOwn(names, id) ? names[id] : undefined;
  return name === undefined ? quoted(id) : `${quoted(id)} (${name})`;
}
