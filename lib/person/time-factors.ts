/** How much longer work takes than its library time: cold hands, gloves, heat, tiredness; the dark factor is the step's own. */
import {
  DEFAULT_TIME_FACTORS,
  glovesRatio,
  TIME_FACTORS,
  type Gloves,
  type TimeFactorSettings,
} from './time-factors.table.ts';
import { windChillC } from './climate/wind-chill.ts';

export type Hands = 'gross' | 'medium' | 'fine';

export interface ColdWork {
  readonly airC: number;
  readonly deckWindKn: number;
  readonly hands: Hands;
  /** Minutes of the work itself; exposure counts up to an hour. */
  readonly exposureMin: number;
  readonly gloves: Gloves;
  /** Spray or rain on the hands. */
  readonly wet: boolean;
}

function coldSlopePerC(hands: Hands, settings: TimeFactorSettings): number {
  if (hands === 'fine') return settings.coldFinePerC;
  return hands === 'medium' ? settings.coldMediumPerC : settings.coldGrossPerC;
}

/** Time factor of cold hands, 1 or more: 1 + k · max(0, 10 − chill) · √(min(minutes, 60) / 60). */
export function coldHandsRatio(
  of: { chillC: number; hands: Hands; exposureMin: number },
  settings: TimeFactorSettings = DEFAULT_TIME_FACTORS,
): number {
  const exposureShare = Math.min(of.exposureMin, 60) / 60;
  return 1 + coldSlopePerC(of.hands, settings) * Math.max(0, 10 - of.chillC) * Math.sqrt(exposureShare);
}

/** Time factor of cold hands and of gloves together. */
export const handsFactorRatio = (
  of: { chillC: number; hands: Hands; exposureMin: number; gloves: Gloves },
  settings: TimeFactorSettings = DEFAULT_TIME_FACTORS,
): number => coldHandsRatio(of, settings) * glovesRatio(of.gloves, settings);

/** The same from air and wind over the deck; wet hands feel so much colder. */
export function coldFactorRatio(work: ColdWork, settings: TimeFactorSettings = DEFAULT_TIME_FACTORS): number {
  const chillC = windChillC(work) - (work.wet ? settings.wetColderC : 0);
  return handsFactorRatio({ ...work, chillC }, settings);
}

/** Whether hands get wet: in rain, and from spray on the foredeck and overside. Unknown rain or wind: not counted. */
export const isWetWork = (of: { rainMmPerH: number; trueWindKn: number; isInSpray: boolean }): boolean =>
  of.rainMmPerH >= TIME_FACTORS.wetRain.value || (of.isInSpray && of.trueWindKn >= TIME_FACTORS.sprayWind.value);

/** What it is, and what it must be at least. */
export interface TooCold {
  readonly observedC: number;
  readonly leastC: number;
}

/** Whether it is too cold for fine hand work: wind chill below −10 °C, or wet below 5 °C air. null: it is not. */
export function tooColdForFineWork(of: { airC: number; chillC: number; wet: boolean }): TooCold | null {
  const leastChillC = TIME_FACTORS.fineLeastWindChill.value;
  const leastWetAirC = TIME_FACTORS.fineLeastAirWet.value;
  if (of.chillC < leastChillC) return { observedC: of.chillC, leastC: leastChillC };
  return of.wet && of.airC < leastWetAirC ? { observedC: of.airC, leastC: leastWetAirC } : null;
}

/** Time factor of tiredness by mean rating at the start; null: no work is planned at KSS 8 and above. */
export function tiredFactorRatio(
  kssPoints: number,
  settings: TimeFactorSettings = DEFAULT_TIME_FACTORS,
): number | null {
  if (kssPoints <= 5) return TIME_FACTORS.tiredKss5.value;
  if (kssPoints <= 6) return settings.tiredToKss6Ratio;
  return kssPoints < 8 ? settings.tiredToKss8Ratio : null;
}

/** Product of time factors; null when one is null or the product is above the cap: then the work is refused. */
export function combinedFactorRatio(
  factors: readonly (number | null)[],
  settings: Pick<TimeFactorSettings, 'productCapRatio'> = DEFAULT_TIME_FACTORS,
): number | null {
  let product = 1;
  for (const factor of factors) {
    if (factor === null) return null;
    product *= factor;
  }
  return product <= settings.productCapRatio ? product : null;
}
