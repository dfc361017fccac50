import type { HourValues, PlanPicture, Spread } from '../../lib/planner/index.ts';
import { formatUtc, MS_PER_H } from '../../lib/time/index.ts';
import { skyText, trueWindText, valueText, withUnit } from './hour-values-text.ts';
import type { HourReading, HourRow, TimeAxis } from './strip-model.ts';
import type { TimeTexts } from './time-texts.ts';
import { AIR, quantityText, SEA_HEIGHT, SEA_WATER, spreadText, WIND } from './units/hour-figures.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** A longer axis has no room for every hour. */
const HOURLY_UP_TO_H = 96;

/** What every strip knows of its hours. Arrays stand on `slotEpochMs`. */
export interface HourlyWeather extends Pick<
  PlanPicture,
  'slotEpochMs' | 'light' | 'seaHeightM' | 'rainMmPerH' | 'airC' | 'alertnessPoints'
> {
  readonly hours: HourValues;
}

/** What differs from strip to strip. */
interface ReadingInput extends Pick<HourReading, 'pressed' | 'more'> {
  readonly weather: HourlyWeather;
  /** Wind over the deck in a slot, `unknown` or why there is none; and its gust. */
  readonly deckAt: (i: number, row: Row) => { readonly wind: string; readonly gust: string };
  /** Terms after the weather, and their values. */
  readonly ownTerms: readonly string[];
  readonly ownAt: (i: number, row: Row) => readonly string[];
  readonly hrefOf: (utc: string) => string;
  /** The hour to show; null: the first one. */
  readonly shownEpochMs: number | null;
  readonly times: TimeTexts;
}

type Row = Pick<HourRow, 'fromEpochMs' | 'toEpochMs'>;

const WEATHER_TERMS = [
  'Ship’s time',
  'UTC',
  'Light',
  'True wind',
  'Deck wind',
  'Gust',
  'Sea',
  'Steepness',
  'Rain',
  'Air',
  'Sea water',
  'Visibility',
  'Alertness',
];

/** Every hour (or every other) of the axis that is still ahead, with all that is known of it. */
export function hourReading(input: ReadingInput, axis: TimeAxis): HourReading {
  const { weather, ownTerms, ownAt, hrefOf, shownEpochMs, pressed, more } = input;
  const everyMs = MS_PER_H * (axis.toEpochMs - axis.fromEpochMs > HOURLY_UP_TO_H * MS_PER_H ? 2 : 1);
  const rows = Array.from(weather.slotEpochMs).flatMap((fromEpochMs, i): HourRow[] => {
    if (fromEpochMs % everyMs !== 0 || fromEpochMs >= axis.toEpochMs) return [];
    const span = { fromEpochMs, toEpochMs: Math.min(axis.toEpochMs, fromEpochMs + everyMs) };
    const utc = formatUtc(fromEpochMs);
    return [{ ...span, utc, href: hrefOf(utc), values: [...weatherAt(input, i, span), ...ownAt(i, span)] }];
  });
  const shownIndex = shownEpochMs === null ? 0 : rows.findLastIndex((row) => row.fromEpochMs <= shownEpochMs);
  return { terms: [...WEATHER_TERMS, ...ownTerms], rows, shownIndex: Math.max(0, shownIndex), pressed, more };
}

function weatherAt({ weather, deckAt, times }: ReadingInput, i: number, row: Row): string[] {
  const { hours, light, seaHeightM, rainMmPerH, airC, alertnessPoints } = weather;
  const deck = deckAt(i, row);
  const { units } = times;
  return [
    times.full(row.fromEpochMs),
    times.utc(row.fromEpochMs),
    skyText(light[i] ?? 'night', hours.moon[i] ?? 'down'),
    trueWindText(hours, i, units),
    deck.wind,
    deck.gust,
    spreadText(seaHeightM, i, SEA_HEIGHT, units),
    valueText(hours.steepnessRatio.p50[i], 3),
    withUnit(valueText(rainMmPerH[i], 1), 'mm/h'),
    quantityText(airC[i], AIR, units),
    quantityText(hours.seaWaterC[i], SEA_WATER, units),
    withUnit(valueText(hours.visibilityNm[i], 1), 'nm'),
    withUnit(valueText(alertnessPoints[i], 1), 'points'),
  ];
}

/** `9 (6 to 12) kn`, in the reader's unit. */
export const windText = (spread: Spread, i: number, units: ShownUnits): string => spreadText(spread, i, WIND, units);
