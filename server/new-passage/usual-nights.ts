import { formatUtc, MS_PER_H, MS_PER_MIN } from '../../lib/time/index.ts';

const MS_PER_DAY = 24 * MS_PER_H;

interface Nights {
  readonly departureEpochMs: number;
  readonly shipTimeOffsetMin: number;
  /** `22:00`, on the ship's clock. */
  readonly bedtimeLocal: string;
  /** Hours in the bunk, the last night first; 0: none. */
  readonly nightsH: readonly number[];
}

/**
 * Sleeps of the last nights as the passage file has them: each begins at the usual hour, the last one on the latest day on
 * which it still ends before the departure, the others a day earlier each.
 */
export function usualNights({ departureEpochMs, shipTimeOffsetMin, bedtimeLocal, nightsH }: Nights) {
  const [hour = 22, minute = 0] = bedtimeLocal.split(':').map(Number);
  const bedtimeMs = (hour * 60 + minute) * MS_PER_MIN;
  const offsetMs = shipTimeOffsetMin * MS_PER_MIN;
  const lastEndEpochMs = departureEpochMs - (nightsH[0] ?? 0) * MS_PER_H;
  const midnightEpochMs = Math.floor((lastEndEpochMs + offsetMs - bedtimeMs) / MS_PER_DAY) * MS_PER_DAY - offsetMs;
  return nightsH.flatMap((nightH, back) => {
    if (nightH <= 0) return [];
    const startEpochMs = midnightEpochMs + bedtimeMs - back * MS_PER_DAY;
    return [{ startUtc: formatUtc(startEpochMs), endUtc: formatUtc(startEpochMs + nightH * MS_PER_H) }];
  });
}
