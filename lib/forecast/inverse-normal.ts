const A = [
  -39.69683028665376, 220.9460984245205, -275.9285104469687, 138.357751867269, -30.66479806614716, 2.506628277459239,
] as const;
const B = [-54.47609879822406, 161.5858368580409, -155.6989798598866, 66.80131188771972, -13.28068155288572] as const;
const C = [
  -0.007784894002430293, -0.3223964580411365, -2.400758277161838, -2.549732539343734, 4.374664141464968,
  2.938163982698783,
] as const;
const D = [0.007784695709041462, 0.3224671290700398, 2.445134137142996, 3.754408661907416] as const;
const LOW_PROBABILITY = 0.02425;

/**
 * Quantile of the standard normal distribution.
 *
 * Rational approximation of P. J. Acklam, "An algorithm for computing the inverse normal cumulative distribution
 * function" (2003); relative error below 1.15e-9.
 *
 * @param probability in (0, 1); throws outside it
 */
export function inverseNormal(probability: number): number {
  if (!(probability > 0 && probability < 1)) throw new Error('a probability strictly between 0 and 1 is needed');
  if (probability > 0.5) return -inverseNormal(1 - probability);
  if (probability < LOW_PROBABILITY) {
    const q = Math.sqrt(-2 * Math.log(probability));
    return horner(C, q) / (horner(D, q) * q + 1);
  }
  const q = probability - 0.5;
  const r = q * q;
  return (horner(A, r) * q) / (horner(B, r) * r + 1);
}

const horner = (coefficients: readonly number[], x: number): number =>
  coefficients.reduce((sum, coefficient) => sum * x + coefficient, 0);
