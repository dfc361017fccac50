const KMH_PER_KN = 1.852;
const WARMEST_C = 10;
const LEAST_WIND_KMH = 4.8;

/**
 * Wind chill temperature [°C], index of 2001 (Environment Canada, US National Weather Service):
 * 13.12 + 0.6215 T − 11.37 V^0.16 + 0.3965 T V^0.16, V in km/h.
 *
 * Defined for T ≤ 10 °C and V > 4.8 km/h; outside that the air temperature itself is returned. Fed with the wind over
 * the deck where the work is done (a choice: the index was made for the wind at 10 m).
 *
 * @see sources.WIND_CHILL_2001
 */
export function windChillC({ airC, deckWindKn }: { airC: number; deckWindKn: number }): number {
  const windKmPerH = deckWindKn * KMH_PER_KN;
  if (airC > WARMEST_C || windKmPerH <= LEAST_WIND_KMH) return airC;
  const power = windKmPerH ** 0.16;
  return 13.12 + 0.6215 * airC - 11.37 * power + 0.3965 * airC * power;
}
