/** How much longer work takes than its library time: cold hands, gloves, tiredness; the dark factor is the step's own. */
import { TIME_FACTORS } from './time-factors.table.ts';
import type { Gloves } from './watchkeeper.ts';
import { windChillC } from './wind-chill.ts';

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

const coldSlope: Readonly<Record<Hands, number>> = {
  gross: TIME_FACTORS.coldGross.value,
  medium: TIME_FACTORS.coldMedium.value,
  fine: TIME_FACTORS.coldFine.value,
};

const gloveFactor: Readonly<Record<Gloves, number>> = {
  none: 1,
  thin: TIME_FACTORS.glovesThin.value,
  thick: TIME_FACTORS.glovesThick.value,
};

/** Wind chill felt by the hands [°C]: 5 °C colder when wet. */
const handsWindChillC = (of: { airC: number; deckWindKn: number; wet: boolean }): number =>
  windChillC(of) - (of.wet ? TIME_FACTORS.wetColder.value : 0);

/** Time factor of a wind chill: (1 + k · max(0, 10 − chill) · √(min(minutes, 60) / 60)) × gloves. */
export function handsFactorRatio(of: { chillC: number; hands: Hands; exposureMin: number; gloves: Gloves }): number {
  const exposureShare = Math.min(of.exposureMin, 60) / 60;
  const coldRatio = 1 + coldSlope[of.hands] * Math.max(0, 10 - of.chillC) * Math.sqrt(exposureShare);
  return coldRatio * gloveFactor[of.gloves];
}

/** Time factor of cold hands and gloves, 1 or more. */
export const coldFactorRatio = (work: ColdWork): number => handsFactorRatio({ ...work, chillC: handsWindChillC(work) });

/** Whether it is too cold for fine hand work: wind chill below −10 °C, or wet below 5 °C air. */
export const isTooColdForFineWork = (work: Pick<ColdWork, 'airC' | 'deckWindKn' | 'wet'>): boolean =>
  windChillC(work) < TIME_FACTORS.fineLeastWindChill.value ||
  (work.wet && work.airC < TIME_FACTORS.fineLeastAirWet.value);

/** Time factor of tiredness by mean rating at the start; null: no work is planned at KSS 8 and above. */
export function tiredFactorRatio(kssPoints: number): number | null {
  if (kssPoints <= 5) return TIME_FACTORS.tiredKss5.value;
  if (kssPoints <= 6) return TIME_FACTORS.tiredKss6.value;
  return kssPoints < 8 ? TIME_FACTORS.tiredKss8.value : null;
}

/** Product of time factors; null when one is null or the product is above 3: then the work is refused. */
export function combinedFactorRatio(factors: readonly (number | null)[]): number | null {
  let product = 1;
  for (const factor of factors) {
    if (factor === null) return null;
    product *= factor;
  }
  return product <= TIME_FACTORS.productCap.value ? product : null;
}
