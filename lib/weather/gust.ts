export type GustExposure = 'at-sea' | 'off-sea' | 'off-land' | 'in-land';

interface GustRow {
  readonly exposure: GustExposure;
  readonly gustS: number;
  readonly meanS: number;
  readonly factorRatio: number;
}

/** sources.HARPER_2010, Table 1.1: gust of `gustS` within a mean over `meanS`. */
const GUST_ROWS: readonly GustRow[] = [
  { exposure: 'at-sea', gustS: 3, meanS: 600, factorRatio: 1.23 },
  { exposure: 'at-sea', gustS: 3, meanS: 60, factorRatio: 1.11 },
  { exposure: 'at-sea', gustS: 60, meanS: 600, factorRatio: 1.05 },
  { exposure: 'off-sea', gustS: 3, meanS: 600, factorRatio: 1.38 },
  { exposure: 'off-sea', gustS: 60, meanS: 600, factorRatio: 1.11 },
  { exposure: 'off-sea', gustS: 3, meanS: 60, factorRatio: 1.23 },
  { exposure: 'off-land', gustS: 60, meanS: 600, factorRatio: 1.16 },
  { exposure: 'off-land', gustS: 3, meanS: 60, factorRatio: 1.36 },
  { exposure: 'in-land', gustS: 3, meanS: 600, factorRatio: 1.66 },
  { exposure: 'in-land', gustS: 3, meanS: 3600, factorRatio: 1.75 },
  { exposure: 'in-land', gustS: 60, meanS: 600, factorRatio: 1.21 },
  { exposure: 'in-land', gustS: 3, meanS: 60, factorRatio: 1.49 },
];

/**
 * Published ratio of the strongest gust to the mean wind; null where the table has no row.
 *
 * Made for tropical cyclones, good for strong neutral wind; light unstable air is gustier.
 *
 * @see sources.HARPER_2010, Table 1.1
 */
export function gustFactorRatio(row: {
  readonly exposure: GustExposure;
  readonly gustS: number;
  readonly meanS: number;
}): number | null {
  const found = GUST_ROWS.find(
    (known) => known.exposure === row.exposure && known.gustS === row.gustS && known.meanS === row.meanS,
  );
  return found?.factorRatio ?? null;
}

/** Ratio of gust to mean taken where a forecast has no gust. Common practice, no source. */
const DEFAULT_GUST_RATIO = 1.3;

/** Least excess of a gust over the mean [kn]: light air is gustier in proportion. Common practice, no source. */
const LEAST_GUST_EXCESS_KN = 3;

/** Gust [kn] estimated from the mean where the forecast has none: the larger of ratio × mean and mean + 3 kn. */
export function estimatedGustKn(meanKn: number, gustRatio: number = DEFAULT_GUST_RATIO): number {
  return Math.max(gustRatio * meanKn, meanKn + LEAST_GUST_EXCESS_KN);
}
