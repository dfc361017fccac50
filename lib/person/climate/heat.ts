/** Heat: the indices that are published for it, the limits set on them, and how much longer work takes. */
import type { Effort } from '../exertion/effort.ts';
import {
  HEAT_LIMITS,
  HUMIDEX,
  HUMIDEX_BANDS,
  WBGT,
  WORK_CAPACITY,
  WORK_CAPACITY_LEAST,
  type Discomfort,
} from './heat.table.ts';
import { requireFinite, requirePositive, requireRatio } from '../valid-range.ts';

const K_AT_0_C = 273.15;

/**
 * Wet-bulb globe temperature in the sun [°C]: 0.7 natural wet bulb + 0.2 globe + 0.1 air.
 *
 * @see sources.ISO_7243
 */
export function wbgtSunC(of: { naturalWetBulbC: number; globeC: number; airC: number }): number {
  requireFinite(of);
  return WBGT.sunWetBulb.value * of.naturalWetBulbC + WBGT.sunGlobe.value * of.globeC + WBGT.sunAir.value * of.airC;
}

/**
 * Wet-bulb globe temperature in the shade or below deck [°C]: 0.7 natural wet bulb + 0.3 globe.
 *
 * @see sources.ISO_7243
 */
export function wbgtShadeC(of: { naturalWetBulbC: number; globeC: number }): number {
  requireFinite(of);
  return WBGT.shadeWetBulb.value * of.naturalWetBulbC + WBGT.shadeGlobe.value * of.globeC;
}

/**
 * Wet-bulb globe temperature from a forecast alone [°C]: 0.567 T + 0.393 e + 3.94. Takes moderate sun and light wind as
 * given: too high at night and in a breeze, too low in full sun without one. The formula is quoted from memory.
 *
 * @param of air [°C, above −237.7], relative humidity [ratio 0 … 1]; throws outside
 * @see sources.WBGT_BOM
 */
export function wbgtEstimateC(of: { airC: number; humidityRatio: number }): number {
  const { vapourScale, vapourSlope, vapourOffset, estimateAir, estimateVapour, estimateOffset } = WBGT;
  requireAir(of);
  const saturatedHpa = vapourScale.value * Math.exp((vapourSlope.value * of.airC) / (vapourOffset.value + of.airC));
  return estimateAir.value * of.airC + estimateVapour.value * of.humidityRatio * saturatedHpa + estimateOffset.value;
}

/**
 * Humidex [°C] from air and dew point: T + 0.5555 (e − 10), e = 6.11 exp(5417.753 (1/273.16 − 1/(Td + 273.15))).
 *
 * @param of air and dew point [°C, above −273.15]; throws outside
 * @see sources.HUMIDEX_1979
 */
export function humidexC({ airC, dewPointC }: { airC: number; dewPointC: number }): number {
  requireFinite({ airC });
  requirePositive({ dewPointK: dewPointC + K_AT_0_C });
  const perK = 1 / HUMIDEX.dewPointFreezing.value - 1 / (dewPointC + K_AT_0_C);
  const vapourHpa = HUMIDEX.dewPointScale.value * Math.exp(HUMIDEX.dewPointHeat.value * perK);
  return airC + HUMIDEX.dewPointSlope.value * (vapourHpa - HUMIDEX.baseVapour.value);
}

/**
 * Humidex [°C] from air and relative humidity: T + 5/9 (e − 10), e = RH · 6.112 · 10^(7.5 T / (237.7 + T)). The two
 * published forms take different vapour pressures: this one lies below `humidexC`, by 0.2 °C at 30 °C and 60 %, by 0.8 °C
 * at a humidex of 54.
 *
 * @param of air [°C, above −237.7], relative humidity [ratio 0 … 1]; throws outside
 * @see sources.HUMIDEX_1979
 */
export function humidexFromHumidityC(of: { airC: number; humidityRatio: number }): number {
  requireAir(of);
  const power = (HUMIDEX.humidityPower.value * of.airC) / (HUMIDEX.humidityOffset.value + of.airC);
  const vapourHpa = of.humidityRatio * HUMIDEX.humidityScale.value * 10 ** power;
  return of.airC + HUMIDEX.humiditySlope.value * (vapourHpa - HUMIDEX.baseVapour.value);
}

/**
 * How a humidex feels. The table has whole degrees: parts of one count as the hotter degree.
 *
 * @param humidexOfAirC humidex [°C]; throws for what is no number
 * @see sources.HUMIDEX_1979
 */
export function humidexBand(humidexOfAirC: number): Discomfort {
  requireFinite({ humidexOfAirC });
  return HUMIDEX_BANDS.findLast((band) => Math.ceil(humidexOfAirC) >= band.fromC)?.discomfort ?? 'none';
}

/**
 * Wet-bulb globe temperature above which work without pauses is not recommended [°C]: for people used to the heat 56.7 −
 * 11.5 log10 M (recommended exposure limit), for others 59.9 − 14.1 log10 M (recommended alert limit).
 *
 * @param of metabolic rate as the mean of an hour [W, above 0]; throws outside
 * @see sources.NIOSH_2016_106, section 8.1
 */
export function heatLimitC({ metabolicW, acclimatised }: { metabolicW: number; acclimatised: boolean }): number {
  requirePositive({ metabolicW });
  const intercept = acclimatised ? HEAT_LIMITS.acclimatisedIntercept : HEAT_LIMITS.unacclimatisedIntercept;
  const slope = acclimatised ? HEAT_LIMITS.acclimatisedSlope : HEAT_LIMITS.unacclimatisedSlope;
  return intercept.value - slope.value * Math.log10(metabolicW);
}

/**
 * Share of usual work that people do in an hour of heat, 1 … 0.1: 0.1 + 0.9 / (1 + (WBGT / d)^e), d and e by effort. 1 at
 * a WBGT of 0 °C and below: cold is not its subject.
 *
 * @param of wet-bulb globe temperature [°C]; throws for what is no number
 * @see sources.BROEDE_2018
 */
export function workCapacityRatio({ wbgtC, effort }: { wbgtC: number; effort: Effort }): number {
  requireFinite({ wbgtC });
  const { half, power } = WORK_CAPACITY[effort];
  const least = WORK_CAPACITY_LEAST.value;
  return least + (1 - least) / (1 + (Math.max(0, wbgtC) / half.value) ** power.value);
}

/** How many times longer work takes in the heat, 1 … 10: the inverse of the work capacity. */
export const heatFactorRatio = (of: { wbgtC: number; effort: Effort }): number =>
  Math.max(1, 1 / workCapacityRatio(of));

function requireAir({ airC, humidityRatio }: { airC: number; humidityRatio: number }): void {
  requireRatio({ humidityRatio });
  requirePositive({ airAboveEndOfFormulaC: airC + HUMIDEX.humidityOffset.value });
}
