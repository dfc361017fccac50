/** Exponent of the wind profile over the sea, near-neutral air: sources.HSU_1994. */
const SEA_PROFILE_EXPONENT_RATIO = 0.11;

/** Height of a forecast's surface wind [m]. */
const FORECAST_WIND_HEIGHT_M = 10;

/**
 * Wind at a height as a share of the wind at another, power law.
 *
 * Near-neutral air over the sea, 1.5 to 30 m; warm air over cold water shears far more. At the surface it is 0.
 *
 * @param at `referenceM` 10 m and `exponentRatio` 0.11 unless given
 * @see sources.HSU_1994
 */
export function windHeightRatio(at: {
  readonly heightM: number;
  readonly referenceM?: number;
  readonly exponentRatio?: number;
}): number {
  const referenceM = at.referenceM ?? FORECAST_WIND_HEIGHT_M;
  return (Math.max(0, at.heightM) / referenceM) ** (at.exponentRatio ?? SEA_PROFILE_EXPONENT_RATIO);
}
