/** Karolinska Sleepiness Scale from alertness; scale 1 (extremely alert) to 9 (fighting sleep), not clamped. */
import { LOGISTIC_CUT_POINTS, SLEEPINESS_SCALE } from './three-process.table.ts';

/** Mean rating: 9.68 − 0.46 · alertness (model 5c). */
export const kssFromAlertness = (alertnessPoints: number): number =>
  SLEEPINESS_SCALE.intercept.value + SLEEPINESS_SCALE.slope.value * alertnessPoints;

/** Rating that nine people of ten stay below: the mean line + 1.07. */
export const kssP90FromAlertness = (alertnessPoints: number): number =>
  kssFromAlertness(alertnessPoints) + SLEEPINESS_SCALE.p90.value;

/** The other published line, 10.6 − 0.6 · (alertness + W): shows inertia, is not used for planning. */
export const kssWithInertia = ({ alertnessPoints, w }: { alertnessPoints: number; w: number }): number =>
  SLEEPINESS_SCALE.interceptWithInertia.value + SLEEPINESS_SCALE.slopeWithInertia.value * (alertnessPoints + w);

/** Alertness at which the mean rating is `kssPoints`. */
export const alertnessAtKss = (kssPoints: number): number =>
  (kssPoints - SLEEPINESS_SCALE.intercept.value) / SLEEPINESS_SCALE.slope.value;

/** For display only: the scale ends at 1 and 9. */
export const displayedKss = (kssPoints: number): number => Math.min(9, Math.max(1, kssPoints));

export type RatingPercentile = 50 | 75 | 90;

/**
 * Probability that a person rates themselves above `k` on the scale.
 *
 * @param k whole step of the scale, 1 … 8; anything else is a mistake of ours and throws
 * @param percentile 50: the middle person; 75, 90: one sleepier than that share of people
 */
export function kssAboveProbability(of: { alertnessPoints: number; k: number; percentile: RatingPercentile }): number {
  const cutPoint = LOGISTIC_CUT_POINTS[of.k - 1];
  if (cutPoint === undefined) throw new Error(`the scale has no step above ${of.k}`);
  const logit = SLEEPINESS_SCALE.logisticSlope.value * of.alertnessPoints - cutPoint + logitOffset(of.percentile);
  return 1 / (1 + Math.exp(-logit));
}

function logitOffset(percentile: RatingPercentile): number {
  if (percentile === 75) return SLEEPINESS_SCALE.logisticP75.value;
  return percentile === 90 ? SLEEPINESS_SCALE.logisticP90.value : 0;
}
