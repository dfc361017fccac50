/** WMO code table 4.10, types of statistical processing (FM 92 GRIB edition 2, version of 2025: wmo-im/GRIB2 25dc6aa), all named. */
import type { Statistic } from '../field.ts';

const STATISTICS: ReadonlyMap<number, Statistic> = new Map([
  [0, 'average'],
  [1, 'accumulation'],
  [2, 'maximum'],
  [3, 'minimum'],
  [4, 'difference'],
  [5, 'root-mean-square'],
  [6, 'standard-deviation'],
  [7, 'covariance'],
  [8, 'reversed-difference'],
  [9, 'ratio'],
  [10, 'standardized-anomaly'],
  [11, 'summation'],
  [12, 'return-period'],
  [100, 'severity'],
  [101, 'mode'],
  [102, 'index'],
]);

/** Name of a number in code table 4.10; `other` when it has none here. */
export const statisticOfCode = (code: number): Statistic => STATISTICS.get(code) ?? 'other';

/** Number in code table 4.10 of a statistic that has one, or null. */
export function codeOfStatistic(statistic: Statistic): number | null {
  return [...STATISTICS].find(([, name]) => name === statistic)?.[0] ?? null;
}
