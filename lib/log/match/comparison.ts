import type { CoursePoints } from '../../forecast/index.ts';
import { countShares } from './count-shares.ts';
import { directionReadingSdDeg, gustReadingSdKn, seaReadingSdM, windReadingSdKn } from './reading-errors.ts';
import { readingOf, SEEN_QUANTITIES, type SeenQuantity, type SeenWeather } from './seen-weather.ts';

/** One figure read, ready to be held against a forecast. */
export interface ComparedReading {
  /** Place in the course points. */
  readonly pointIndex: number;
  readonly value: number;
  /** Of the reading alone; pressure: its forecast's error is put to it by who knows the lead. */
  readonly readingSd: number;
  readonly countShare: number;
}

export type Comparison = ReadonlyMap<SeenQuantity, readonly ComparedReading[]>;

/** Places and instants of readings. */
export const pointsOf = (seen: readonly SeenWeather[]): CoursePoints => ({
  epochMs: Float64Array.from(seen, ({ epochMs }) => epochMs),
  lat: Float64Array.from(seen, ({ lat }) => lat),
  lon: Float64Array.from(seen, ({ lon }) => lon),
});

/** A gust says much of what the mean wind read beside it says: ours. */
const GUST_BESIDE_WIND_SHARE = 0.5;

/** Lays out what was read by quantity, each reading with its error and how much it counts. */
export function comparisonOf(
  seen: readonly SeenWeather[],
  isHeld: (quantity: SeenQuantity, pointIndex: number) => boolean = () => true,
): Comparison {
  return new Map(SEEN_QUANTITIES.map((quantity) => [quantity, readingsOf(seen, quantity, isHeld)]));
}

function readingsOf(
  seen: readonly SeenWeather[],
  quantity: SeenQuantity,
  isHeld: (quantity: SeenQuantity, pointIndex: number) => boolean,
): ComparedReading[] {
  const places = [...seen.keys()].filter((i) => {
    const one = seen[i];
    return one !== undefined && !Number.isNaN(readingOf(one, quantity)) && isHeld(quantity, i);
  });
  const shares = countShares(places.map((i) => seen[i]?.epochMs ?? 0));
  return places.flatMap((pointIndex, k) => {
    const one = seen[pointIndex];
    if (one === undefined) return [];
    const besideShare = quantity === 'gust' && one.windKn !== undefined ? GUST_BESIDE_WIND_SHARE : 1;
    const countShare = (shares[k] ?? 0) * besideShare;
    return [{ pointIndex, value: readingOf(one, quantity), readingSd: readingSdOf(one, quantity), countShare }];
  });
}

function readingSdOf(seen: SeenWeather, quantity: SeenQuantity): number {
  const value = readingOf(seen, quantity);
  if (quantity === 'wind') return windReadingSdKn(value);
  if (quantity === 'gust') return gustReadingSdKn(value);
  if (quantity === 'sea') return seaReadingSdM(value);
  if (quantity === 'direction') return directionReadingSdDeg(seen.windKn ?? UNREAD_WIND_KN);
  return 0;
}

/** A direction noted without a speed is taken as one of a moderate wind. Ours. */
const UNREAD_WIND_KN = 10;

/** Read minus forecast; of directions the shorter way round, −180 to 180. */
export function differenceOf(quantity: SeenQuantity, of: { readonly read: Amount; readonly forecast: Amount }): number {
  const value = of.read.value - of.forecast.value;
  return quantity === 'direction' ? value - 360 * Math.round(value / 360) : value;
}

interface Amount {
  readonly value: number;
}
