/** Random numbers of the sample members: always the same ones. */

/** Uniform draws in [0, 1) from a seed (mulberry32, T. Ettinger 2017, public domain). */
export function uniformDraws(seed: number): () => number {
  let state = seed >>> 0;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let mixed = Math.imul(state ^ (state >>> 15), 1 | state);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 2 ** 32;
  };
}

/** A standard normal draw (G. E. P. Box & M. E. Muller, Annals of Mathematical Statistics 29, 1958). */
export function normalDraw(uniform: () => number): number {
  const radius = Math.sqrt(-2 * Math.log(1 - uniform()));
  return radius * Math.cos(2 * Math.PI * uniform());
}

/** Quantiles of the standard normal distribution at 0.525, 0.575 … 0.975: the upper ten of twenty equal strata. */
const UPPER_QUANTILES = [
  0.06270678, 0.18911843, 0.31863936, 0.45376219, 0.59776013, 0.75541503, 0.93458929, 1.15034938, 1.43953147,
  1.95996398,
] as const;

/** Twenty draws, one from the middle of each stratum, scaled to unit variance, in a random order. */
export function stratifiedTwenty(uniform: () => number): readonly number[] {
  const middles = UPPER_QUANTILES.flatMap((quantile) => [quantile, -quantile]);
  const sd = Math.sqrt(middles.reduce((sum, z) => sum + z * z, 0) / middles.length);
  return shuffled(middles, uniform).map((z) => z / sd);
}

/** Fisher-Yates. */
function shuffled(values: readonly number[], uniform: () => number): number[] {
  const order = [...values];
  for (let i = order.length - 1; i > 0; i--) {
    const j = Math.floor(uniform() * (i + 1));
    const kept = order[i] ?? 0;
    order[i] = order[j] ?? 0;
    order[j] = kept;
  }
  return order;
}
