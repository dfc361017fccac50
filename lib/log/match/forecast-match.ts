import type { Agreement } from './agreement.ts';
import type { BarometerOffset, SeenQuantity, SeenWeather } from './seen-weather.ts';

/** What the readings of a log say of a forecast. */
export type ForecastMatch = NothingToCompare | ComparedForecast;

/** An ordinary answer: the forecast stays as it is. */
export interface NothingToCompare {
  readonly kind: 'nothing-to-compare';
  readonly readingCount: number;
  /** None read at all; or none at a place and time the forecast holds. */
  readonly reason: 'no-readings' | 'outside-forecast';
}

/** The readings, held against the forecast. */
export interface ComparedForecast {
  readonly kind: 'compared';
  /** Readings used, in order of time. */
  readonly seen: readonly SeenWeather[];
  readonly readingCount: number;
  /** Readings in all, with those that could not be compared. */
  readonly offeredCount: number;
  /** Independent readings they are worth, of the quantity read best. */
  readonly effectiveCount: number;
  readonly firstEpochMs: number;
  readonly lastEpochMs: number;
  readonly timing: SeenTiming;
  /** In the order wind, direction, gust, pressure, sea; of what was read and is forecast. */
  readonly quantities: readonly QuantityMatch[];
  /** Offset of the barometer after the readings; null: no pressure was compared. */
  readonly barometer: BarometerOffset | null;
  /** What was known of the barometer before. */
  readonly barometerBefore: BarometerOffset;
  readonly agreement: Agreement;
  readonly seed: number;
}

/** Shift of the forecast the sailor looks at. */
export interface SeenTiming {
  /** Positive later than forecast. */
  readonly shiftH: number;
  readonly shiftSd: number;
  /** Whether the readings narrow the timing at all: steady weather shows nothing. */
  readonly isShown: boolean;
  /** A front stands in the forecast around the readings. */
  readonly isFront: boolean;
}

export interface QuantityMatch {
  readonly quantity: SeenQuantity;
  readonly unit: 'kn' | '°' | 'hPa' | 'm';
  /** Read minus forecast at its shift, on average. */
  readonly meanDifference: { readonly value: number };
  /** Root of the mean square of the differences; of pressure after the offset is taken off. */
  readonly typicalDifference: { readonly value: number };
  /** Distance from what was to be expected, in standard deviations; 1 is usual. */
  readonly distanceSd: number;
  readonly readingCount: number;
  readonly effectiveCount: number;
  readonly agreement: Agreement;
}
