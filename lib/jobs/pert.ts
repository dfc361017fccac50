/**
 * Work time of a chain of steps: PERT estimates added up with one correlation between all steps, because one bad sea
 * slows every one of them.
 */
import type { WorkMinutes } from './job.ts';

/** Correlation between the minutes of any two steps of one chain; common practice, no source. */
const STEP_CORRELATION_RATIO = 0.5;

/** Mean, spread and skewness of minutes. */
export interface Duration {
  readonly meanMin: number;
  readonly sdMin: number;
  /** Third central moment over sd³, without unit. */
  readonly skewnessRatio: number;
}

/** Standard normal quantiles. */
const Z = { p50: 0, p80: 0.841621, p90: 1.281552 } as const;

/** Duration of one estimate: mean (a + 4m + b) / 6, sd (b − a) / 6, skewness of the PERT beta distribution. */
export function pertDuration({ leastMin, likelyMin, mostMin }: WorkMinutes): Duration {
  const rangeMin = mostMin - leastMin;
  return {
    meanMin: (leastMin + 4 * likelyMin + mostMin) / 6,
    sdMin: rangeMin / 6,
    skewnessRatio: rangeMin > 0 ? betaSkewness((likelyMin - leastMin) / rangeMin) : 0,
  };
}

/** Skewness of beta(1 + 4x, 5 − 4x), x the place of the likely value between least and most. */
function betaSkewness(likelyShare: number): number {
  const alphaRatio = 1 + 4 * likelyShare;
  const betaRatio = 5 - 4 * likelyShare;
  return (2 * (betaRatio - alphaRatio) * Math.sqrt(7)) / (8 * Math.sqrt(alphaRatio * betaRatio));
}

/**
 * Duration of a chain of steps, every two of them correlated by `correlationRatio`.
 *
 * Spread: ρ (Σ sd)² + (1 − ρ) Σ sd². Skewness from one factor shared by all steps and one of each step's own, both as
 * skewed as the step itself: exact for independent steps and for a single one.
 */
export function sumDuration(steps: readonly Duration[], correlationRatio: number = STEP_CORRELATION_RATIO): Duration {
  const sum = (of: (step: Duration) => number): number => steps.reduce((total, step) => total + of(step), 0);
  const sdSumMin = sum((step) => step.sdMin);
  const varianceMin2 = correlationRatio * sdSumMin ** 2 + (1 - correlationRatio) * sum((step) => step.sdMin ** 2);
  const sdMin = Math.sqrt(varianceMin2);
  const [shared, own] = [correlationRatio ** 1.5, (1 - correlationRatio) ** 1.5];
  const thirdMoment =
    (shared * sdSumMin ** 2 * sum((step) => step.skewnessRatio * step.sdMin) +
      own * sum((step) => step.skewnessRatio * step.sdMin ** 3)) /
    (shared + own);
  return { meanMin: sum((step) => step.meanMin), sdMin, skewnessRatio: sdMin > 0 ? thirdMoment / sdMin ** 3 : 0 };
}

/**
 * Minutes that a share of such durations stays within, by the first term of the Cornish-Fisher expansion:
 * mean + sd (z + (z² − 1) skewness / 6).
 */
export function durationQuantiles(duration: Duration): { p50Min: number; p80Min: number; p90Min: number } {
  const at = (z: number): number =>
    duration.meanMin + duration.sdMin * (z + ((z * z - 1) * duration.skewnessRatio) / 6);
  return { p50Min: at(Z.p50), p80Min: at(Z.p80), p90Min: at(Z.p90) };
}
