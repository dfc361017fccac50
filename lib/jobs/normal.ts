/** Beyond so many standard deviations the distribution function is 0 or 1 to the last place. */
const MOST_SD = 9;

/** Density of the standard normal distribution at `value` standard deviations. */
const normalDensity = (value: number): number => Math.exp(-0.5 * value * value) / Math.sqrt(2 * Math.PI);

/**
 * Distribution function of the standard normal distribution, absolute error below 1e-14.
 *
 * Series of G. Marsaglia, "Evaluating the normal distribution", J. Statistical Software 11 (2004).
 */
export function normalProbability(value: number): number {
  if (value > MOST_SD) return 1;
  if (value < -MOST_SD) return 0;
  let term = value;
  let sum = value;
  for (let k = 3, before = Number.NaN; sum !== before; k += 2) {
    before = sum;
    term *= (value * value) / k;
    sum += term;
  }
  return 0.5 + sum * normalDensity(value);
}

/**
 * Quantile of the standard normal distribution, by Newton steps on the distribution function.
 *
 * @param probability in (0, 1); throws outside it; nearer than 1e-12 to an end the last places are not to be trusted
 */
export function normalQuantile(probability: number): number {
  if (!(probability > 0 && probability < 1)) throw new Error('a probability strictly between 0 and 1 is needed');
  // From the middle, steps toward the quantile never jump over it: the function is concave above 0, convex below.
  let value = 0;
  for (let step = 0; step < 60; step++) {
    const change = (probability - normalProbability(value)) / normalDensity(value);
    value += change;
    if (Math.abs(change) < 1e-12 * (1 + Math.abs(value))) break;
  }
  return value;
}
