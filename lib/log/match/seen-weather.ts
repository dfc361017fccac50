/** Weather as it was read or seen on board at one place and time. What was not read is left out. */
export interface SeenWeather {
  readonly epochMs: number;
  readonly lat: number;
  readonly lon: number;
  /** True wind at 10 m, a mean of ten minutes or so. */
  readonly windKn?: number;
  readonly windFromDegTrue?: number;
  /** Highest gust of about the last hour, at 10 m. */
  readonly gustKn?: number;
  /** As the boat's barometer shows it. */
  readonly pressureHpa?: number;
  /** Significant height of wind sea and swell together. */
  readonly seaHeightM?: number;
}

/** What of a reading can be held against a forecast. */
export type SeenQuantity = 'wind' | 'direction' | 'gust' | 'pressure' | 'sea';
export const SEEN_QUANTITIES = ['wind', 'direction', 'gust', 'pressure', 'sea'] as const;

/** What the barometer is known to be off by: reading minus true pressure. */
export interface BarometerOffset {
  readonly offsetHpa: number;
  readonly offsetSdHpa: number;
}

/** Nothing known of the barometer: as good as 2 hPa. Ours. */
export const UNKNOWN_BAROMETER: BarometerOffset = { offsetHpa: 0, offsetSdHpa: 2 };

/** Figures of a quantity in a reading; NaN: not read. Below 2 kn the direction of the wind says nothing. */
export function readingOf(seen: SeenWeather, quantity: SeenQuantity): number {
  const values = {
    wind: seen.windKn,
    direction: (seen.windKn ?? LEAST_STEADY_KN) < LEAST_STEADY_KN ? undefined : seen.windFromDegTrue,
    gust: seen.gustKn,
    pressure: seen.pressureHpa,
    sea: seen.seaHeightM,
  };
  return values[quantity] ?? Number.NaN;
}

const LEAST_STEADY_KN = 2;
