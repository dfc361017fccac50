import { formatAt } from '../time/index.ts';

/** An instant in words, UTC: `27 May 20:10Z`. */
export const utcWords = (epochMs: number): string => `${formatAt(epochMs, 0, 'd LLL HH:mm')}Z`;

/** Minutes in words: `40 min`, `3 h`, `3 h 20 min`. */
export function minWords(durationMin: number): string {
  const wholeMin = Math.round(durationMin);
  const [h, min] = [Math.floor(wholeMin / 60), wholeMin % 60];
  if (h === 0) return `${min} min`;
  return min === 0 ? `${h} h` : `${h} h ${min} min`;
}

/** A figure without what binary fractions leave behind. */
export const figure = (value: number): string => String(Number(value.toPrecision(6)));
