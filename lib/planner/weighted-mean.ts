/** A group of scenarios that stand or fall together: how much it weighs, and what was found in it. */
export interface WeighedGroup {
  readonly weight: number;
  readonly value: number;
}

/**
 * Mean over groups by weight, and one standard error of it from how much the groups disagree: √(n/(n − 1) Σ w²(x − x̄)²),
 * weights of sum 1. With equal weights the usual one, s/√n. Groups without weight do not count; fewer than two: 0.
 */
export function weightedMean(groups: readonly WeighedGroup[]): { readonly value: number; readonly errorSd: number } {
  const weighing = groups.filter(({ weight }) => weight > 0);
  const all = weighing.reduce((sum, { weight }) => sum + weight, 0);
  const mean = weighing.reduce((sum, { weight, value }) => sum + (weight / all) * value, 0);
  if (weighing.length < 2) return { value: mean, errorSd: 0 };
  const square = weighing.reduce((sum, { weight, value }) => sum + ((weight / all) * (value - mean)) ** 2, 0);
  return { value: mean, errorSd: Math.sqrt((square * weighing.length) / (weighing.length - 1)) };
}
