/** Small pieces of sentences; every number with its unit. */
import { formatAt } from '../time/index.ts';
import type { LimitMargin } from '../windows/index.ts';
import type { BindingLimit } from './plan.ts';
import { formatUtc } from '../time/index.ts';

export { ofHundred } from '../reasons/index.ts';

const LIMIT_WORDS: Readonly<Record<string, string>> = {
  'deck-wind': 'wind over the deck',
  'deck-gust': 'gust over the deck',
  'sea-height': 'sea',
  steepness: 'steepness of the sea',
  'handling-wind': 'true wind for this handling',
  'handling-sea': 'sea for this handling',
  daylight: 'daylight',
  rain: 'rain',
  'air-temperature': 'air temperature',
  'sea-temperature': 'sea temperature',
  'steadying-wind': 'steadying wind',
  'highest-wave': 'highest wave',
  visibility: 'visibility',
  'dry-spell': 'rain before or during it',
};

/** `wind over the deck` for `deck-wind`. */
export const limitWords = (limit: string): string => LIMIT_WORDS[limit] ?? limit;

/** `15.4 kn`, `2.1 m`; light has no number. */
export function amountText(amount: number, unit: string): string {
  if (unit === 'ratio') return amount.toFixed(3);
  return `${amount.toFixed(1)} ${unit}`;
}

/** `Fri 29 May 11:00` on ship's time. */
export const shipTime = (epochMs: number, offsetMin: number): string => formatAt(epochMs, offsetMin, 'ccc d LLL HH:mm');

export function bindingLimit(margin: LimitMargin | undefined): BindingLimit | null {
  if (margin === undefined) return null;
  const { limit, observed, required, unit } = margin;
  return { limit, observed, required, unit, margin: margin.margin, atUtc: formatUtc(margin.atEpochMs) };
}
