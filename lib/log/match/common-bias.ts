/** Differences that share one unknown amount: a barometer's offset, a wind that is stronger all day. */
export interface BiasedDifferences {
  /** Read minus forecast, in any unit; all further figures are in it. */
  readonly differences: readonly Difference[];
  /** What the shared amount may be before anything is read. */
  readonly prior: Bias;
}

export interface Difference {
  readonly value: number;
  readonly errorSd: number;
  /** How much it counts, above 0 and at most 1. */
  readonly countShare: number;
}

/** A shared amount and one standard deviation of it. */
export interface Bias {
  readonly value: number;
  readonly biasSd: number;
}

export interface CommonBias {
  /** Log likelihood with the shared amount left open, up to a constant. */
  readonly logWeight: number;
  /** The shared amount after the readings. */
  readonly bias: Bias;
  /** Distance of the differences from what was to be expected, in standard deviations: 1 is usual. */
  readonly distanceSd: number;
}

/**
 * Likelihood of normal differences with a shared normal amount, each to the power of its share of count.
 *
 * The integral over the amount is exact: precision P = Σ c/σ², S = Σ c·d/σ², Q = Σ c·d²/σ² about the prior mean give
 * −½(Q − S²/(P + 1/B²)) − ½ ln(1 + B²P) − Σ c ln σ (completing the square). Distance: the greater of that of all of
 * them (root of the quadratic form by effective count) and that of their mean, so that one amount shared by many is not
 * averaged away.
 */
export function commonBias({ differences, prior }: BiasedDifferences): CommonBias {
  const { precision, linear, square, logSd, effectiveCount } = sumsOf(differences, prior.value);
  if (effectiveCount === 0) return { logWeight: 0, bias: prior, distanceSd: 0 };
  const priorVariance = prior.biasSd ** 2;
  const gain = priorVariance / (1 + priorVariance * precision);
  const left = Math.max(0, square - linear * linear * gain);
  const meanVariance = priorVariance + 1 / precision;
  return {
    logWeight: -left / 2 - Math.log(1 + priorVariance * precision) / 2 - logSd,
    bias: { value: prior.value + linear * gain, biasSd: Math.sqrt(gain) },
    distanceSd: Math.sqrt(Math.max(left / effectiveCount, (linear / precision) ** 2 / meanVariance)),
  };
}

function sumsOf(differences: readonly Difference[], value: number) {
  let [precision, linear, square, logSd, effectiveCount] = [0, 0, 0, 0, 0];
  for (const { value: read, errorSd, countShare } of differences) {
    const own = countShare / (errorSd * errorSd);
    const distance = read - value;
    precision += own;
    linear += own * distance;
    square += own * distance * distance;
    logSd += countShare * Math.log(errorSd);
    effectiveCount += countShare;
  }
  return { precision, linear, square, logSd, effectiveCount };
}
