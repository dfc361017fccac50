/** What sleepiness is worth in dangers people know: odds of a crash on the road, alcohol. Drivers, not sailors. */
import { ALCOHOL_EQUIVALENCE, CRASH_ODDS, type AlcoholRow } from './crash-odds.table.ts';

export interface CrashOdds {
  readonly leastRatio: number;
  readonly likelyRatio: number;
  readonly mostRatio: number;
}

/**
 * How many times the odds of a road crash rise with a rise on the sleepiness scale, with the 95 % interval; a fall
 * lowers them.
 *
 * @param kssRisePoints steps of the scale, also parts of one
 */
export function crashOdds(kssRisePoints: number): CrashOdds {
  const atEnds = [CRASH_ODDS.least.value ** kssRisePoints, CRASH_ODDS.most.value ** kssRisePoints];
  return {
    leastRatio: Math.min(...atEnds),
    likelyRatio: CRASH_ODDS.likely.value ** kssRisePoints,
    mostRatio: Math.max(...atEnds),
  };
}

/** The highest row of the table that so many hours awake reach; null below 17 h. */
export const alcoholEquivalent = (awakeH: number): AlcoholRow | null =>
  ALCOHOL_EQUIVALENCE.findLast((row) => awakeH >= row.awakeH) ?? null;
