/** Names of numbers in the small code tables about products; a number without a name says so. */
import type { Limits } from '../field.ts';
import {
  DERIVED_FORECASTS,
  INTERVAL_TYPES,
  PROBABILITIES,
  PROCESSES,
  TIME_RANGES_EDITION_1,
} from './products.table.ts';

const named = (names: Readonly<Record<string, string>>, code: number): string => names[code] ?? 'reserved or local';

/** Code table 4.7. */
export const derivedName = (code: number): string => named(DERIVED_FORECASTS, code);

/** Code table 4.3. */
export const processName = (code: number): string => named(PROCESSES, code);

/** Code table 5 of edition 1. */
export const timeRangeName = (code: number): string => named(TIME_RANGES_EDITION_1, code);

/** `above 17.2`, `from 10 to 12`: code table 4.9 with its limits. */
export const probabilityWords = (code: number, limits: Limits): string =>
  withLimits(named(PROBABILITIES, code), limits);

/** The same for code table 4.91. */
export const intervalWords = (code: number, limits: Limits): string => withLimits(named(INTERVAL_TYPES, code), limits);

const withLimits = (words: string, { lower, upper }: Limits): string =>
  words.replace('lower', lower === null ? '?' : String(lower)).replace('upper', upper === null ? '?' : String(upper));
