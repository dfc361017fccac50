/** WMO code table 4.10, types of statistical processing (FM 92 GRIB edition 2, tables version 30). */
import type { Statistic } from '../field.ts';

const STATISTICS: readonly Statistic[] = [
  'average',
  'accumulation',
  'maximum',
  'minimum',
  'difference',
  'root-mean-square',
  'standard-deviation',
  'covariance',
  'reversed-difference',
  'ratio',
  'standardized-anomaly',
  'summation',
];

/** Name of a number in code table 4.10; `other` when it has none here. */
export const statisticOfCode = (code: number): Statistic => STATISTICS[code] ?? 'other';

/** Number in code table 4.10 of a statistic that has one, or null. */
export function codeOfStatistic(statistic: Statistic): number | null {
  const code = STATISTICS.indexOf(statistic);
  return code < 0 ? null : code;
}
