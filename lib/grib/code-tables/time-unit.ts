/**
 * Units of time: GRIB2 code table 4.4 and GRIB1 code table 4. Units of a calendar (months, years) have no fixed
 * length and are refused by the callers.
 */

const MS_PER_S = 1000;
const MS_PER_MINUTE = 60 * MS_PER_S;
const MS_PER_HOUR = 60 * MS_PER_MINUTE;
const COMMON_MS: ReadonlyMap<number, number> = new Map([
  [0, MS_PER_MINUTE],
  [1, MS_PER_HOUR],
  [2, 24 * MS_PER_HOUR],
  [10, 3 * MS_PER_HOUR],
  [11, 6 * MS_PER_HOUR],
  [12, 12 * MS_PER_HOUR],
]);
const EDITION_2_MS: ReadonlyMap<number, number> = new Map([...COMMON_MS, [13, MS_PER_S]]);
const EDITION_1_MS: ReadonlyMap<number, number> = new Map([
  ...COMMON_MS,
  [13, 15 * MS_PER_MINUTE],
  [14, 30 * MS_PER_MINUTE],
  [254, MS_PER_S],
]);
const CALENDAR_NAMES: ReadonlyMap<number, string> = new Map([
  [3, 'month'],
  [4, 'year'],
  [5, 'decade'],
  [6, 'normal, 30 years'],
  [7, 'century'],
]);

/** Milliseconds in a unit, or null when it has no fixed length or is unknown. */
export function timeUnitMs(edition: 1 | 2, code: number): number | null {
  return (edition === 2 ? EDITION_2_MS : EDITION_1_MS).get(code) ?? null;
}

/** Name of a unit that has no fixed length, for messages. */
export const unusableTimeUnitName = (code: number): string => CALENDAR_NAMES.get(code) ?? 'reserved, local or missing';
