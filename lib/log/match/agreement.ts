import type { QuantityFit } from './fit-reference.ts';
import type { SeenQuantity } from './seen-weather.ts';

/** How well the forecast, slid to its best time, fits what was read. */
export type Agreement = 'good' | 'fair' | 'poor';

/**
 * Typical difference beyond which the wind is not that of the forecast, read against it without correction: 5 kn, 30°,
 * 4 hPa; and 2 hPa once the barometer's offset is taken off. Common practice, no source. There is none for the sea.
 */
const RULE_MOST: Readonly<Partial<Record<SeenQuantity, number>>> = { wind: 5, direction: 30, pressure: 4 };
const OFFSET_TAKEN_OFF_HPA = 2;

/** Distances from what the forecast's own error leads one to expect, in standard deviations. Ours. */
const UNUSUAL_SD = 1.8;
const FAR_OFF_SD = 2.7;

/** Judges one quantity by the sailor's rule and by what is usual at this lead; poor where both are broken. */
export function agreementOf(quantity: SeenQuantity, fit: QuantityFit): Agreement {
  const isBeyondRule = breaksRule(quantity, fit);
  if (fit.distanceSd > FAR_OFF_SD || (isBeyondRule && fit.distanceSd > UNUSUAL_SD)) return 'poor';
  return isBeyondRule || fit.distanceSd > UNUSUAL_SD ? 'fair' : 'good';
}

function breaksRule(quantity: SeenQuantity, fit: QuantityFit): boolean {
  const most = RULE_MOST[quantity] ?? Infinity;
  if (quantity === 'pressure' && typicalOf(fit, fit.bias.value).value > OFFSET_TAKEN_OFF_HPA) return true;
  return typicalOf(fit, 0).value > most;
}

/** Root of the mean square of the differences, each by its count, after `value` is taken off. */
export function typicalOf(fit: QuantityFit, value: number): { readonly value: number } {
  const square = fit.differences.reduce((sum, one) => sum + one.countShare * (one.value - value) ** 2, 0);
  return { value: Math.sqrt(square / fit.effectiveCount) };
}

/** Mean of the differences, each by its count. */
export function meanOf(fit: QuantityFit): { readonly value: number } {
  const sum = fit.differences.reduce((total, one) => total + one.countShare * one.value, 0);
  return { value: sum / fit.effectiveCount };
}

const ORDER: readonly Agreement[] = ['good', 'fair', 'poor'];

/** The worst of several; good for none. */
export const worstAgreement = (all: readonly Agreement[]): Agreement =>
  all.reduce<Agreement>((worst, one) => (ORDER.indexOf(one) > ORDER.indexOf(worst) ? one : worst), 'good');
