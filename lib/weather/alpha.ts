import { ALPHA_SEA_HEIGHTS_M, SEA_ALPHA, WIND_ALPHA, type SeaAlphaTable } from './alpha.table.ts';

/** Standard normal quantiles of one-sided confidences 80, 90 and 95 %. */
export const CONFIDENCE_SD = { p80: 0.8416212336, p90: 1.2815515655, p95: 1.644853627 } as const;

/**
 * Alpha factor for a limiting significant wave height: sources.DNV_H101_2011, Tables 4-1 to 4-5.
 *
 * Linear between the columns 1, 2, 4 and 6 m; the row is the first whose period is not exceeded.
 *
 * @returns null below 1 m ("case by case") and beyond the last row: the table does not answer there
 */
export function standardSeaAlphaRatio(operation: {
  readonly limitM: number;
  readonly periodH: number;
  readonly table?: SeaAlphaTable;
}): number | null {
  const row = SEA_ALPHA[operation.table ?? '4-1'].find((known) => operation.periodH <= known.periodH);
  if (row === undefined || !(operation.limitM >= 1)) return null;
  return betweenColumns(row.alphaRatios, operation.limitM);
}

/** Alpha factor for a limiting wind: sources.DNV_H101_2011, Table 4-6; null beyond 72 h. */
export function standardWindAlphaRatio(operation: {
  readonly periodH: number;
  readonly belowHalfTenYearWind: boolean;
}): number | null {
  const row = WIND_ALPHA.find((known) => operation.periodH <= known.periodH);
  return row?.alphaRatios[operation.belowHalfTenYearWind ? 0 : 1] ?? null;
}

/**
 * Alpha from a forecast's error: α = 1 - z σ / limit, never below 0.
 *
 * 0 means: so far ahead no forecast can promise a limit this low.
 *
 * @param margin `errorOverLimitRatio` σ over the limit, both in one unit and at one height; `confidenceSd` the z of the
 *   confidence wanted, 90 % unless given
 */
export function alphaRatio(margin: { readonly errorOverLimitRatio: number; readonly confidenceSd?: number }): number {
  return Math.max(0, 1 - (margin.confidenceSd ?? CONFIDENCE_SD.p90) * margin.errorOverLimitRatio);
}

function betweenColumns(alphaRatios: readonly number[], limitM: number): number | null {
  const last = alphaRatios.length - 1;
  for (let i = 0; i < last; i++) {
    const [lowM, highM] = [ALPHA_SEA_HEIGHTS_M[i], ALPHA_SEA_HEIGHTS_M[i + 1]];
    const [low, high] = [alphaRatios[i], alphaRatios[i + 1]];
    if (lowM === undefined || highM === undefined || low === undefined || high === undefined) return null;
    if (limitM <= highM) return low + ((high - low) * (limitM - lowM)) / (highM - lowM);
  }
  return alphaRatios[last] ?? null;
}
