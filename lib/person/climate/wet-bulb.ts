/**
 * Wet-bulb temperature [°C] from air temperature and relative humidity at sea-level pressure: Stull's fit, within about
 * 0.3 °C for −20 … 50 °C and 5 … 99 %.
 *
 * @see sources.STULL_2011
 */
export function wetBulbC({ airC, humidityRatio }: { airC: number; humidityRatio: number }): number {
  const humidityPct = humidityRatio * 100;
  return (
    airC * Math.atan(0.151977 * Math.sqrt(humidityPct + 8.313659)) +
    Math.atan(airC + humidityPct) -
    Math.atan(humidityPct - 1.676331) +
    0.00391838 * humidityPct ** 1.5 * Math.atan(0.023101 * humidityPct) -
    4.686035
  );
}
