/** Figures of a record of rests that the rest rules of merchant ships ask for. */
import { MS_PER_H, type UtcInterval } from '../../time/index.ts';
import { daysBeforeRests, leastRestH, lengthH, restsOf } from './rest-record.ts';
import { STCW_EXCEPTION, STCW_REST } from './rest-rules.table.ts';

/** Figures of a record of rests; null: the record is too short to tell. */
export interface RestFigures {
  /** Least rest in any 24 h, and in any 7 days, that lie wholly in the record. */
  readonly leastRest24H: number | null;
  readonly leastRest7DaysH: number | null;
  /** Longest time between two rests that follow each other; null with fewer than two rests. */
  readonly longestIntervalH: number | null;
  /** Longest time without rest at an end of the record: the true interval is at least as long. */
  readonly longestOpenIntervalH: number;
  /** Rests in the record; those that touch are one. */
  readonly restCount: number;
  /**
   * Least, over all 24 h that end where a rest begins, of the two longest rests together, of the longest rest, and of
   * the three longest rests of an hour or more together.
   */
  readonly leastTwoPeriodsH: number | null;
  readonly leastLongestPeriodH: number | null;
  readonly leastThreePeriodsH: number | null;
  /** Two periods, one of 6 h, make up the rest of each of those 24 h. One reading of the rule; there are others. */
  readonly canMeetTwoPeriods: boolean | null;
}

/**
 * Figures of the rests in a record. Exact over sliding windows.
 *
 * @param rests in any order; they may touch or overlap, and reach beyond the record
 * @param within the record: outside it nothing is known
 */
export function restFigures(rests: readonly UtcInterval[], within: UtcInterval): RestFigures {
  const inRecord = restsOf(rests, within);
  const days = daysBeforeRests(inRecord, within);
  const leastTwoPeriodsH = leastOf(days, (day) => sumOfFirstH(day, STCW_REST.mostPeriods.value));
  const leastLongestPeriodH = leastOf(days, (day) => sumOfFirstH(day, 1));
  return {
    leastRest24H: leastRestH(inRecord, within, 24),
    leastRest7DaysH: leastRestH(inRecord, within, 7 * 24),
    ...intervalsOf(inRecord, within),
    restCount: inRecord.length,
    leastTwoPeriodsH,
    leastLongestPeriodH,
    leastThreePeriodsH: leastOf(days, threePeriodsH),
    canMeetTwoPeriods:
      leastTwoPeriodsH === null || leastLongestPeriodH === null
        ? null
        : leastTwoPeriodsH >= STCW_REST.rest24.value && leastLongestPeriodH >= STCW_REST.longestPeriod.value,
  };
}

const sumOfFirstH = (lengthsMs: readonly number[], periodCount: number): number =>
  lengthsMs.slice(0, periodCount).reduce((sumMs, restMs) => sumMs + restMs, 0) / MS_PER_H;

const threePeriodsH = (lengthsMs: readonly number[]): number =>
  sumOfFirstH(
    lengthsMs.filter((restMs) => restMs >= STCW_EXCEPTION.otherPeriods.value * MS_PER_H),
    STCW_EXCEPTION.mostPeriods.value,
  );

const leastOf = (
  days: readonly (readonly number[])[],
  figureH: (lengthsMs: readonly number[]) => number,
): number | null => (days.length === 0 ? null : Math.min(...days.map(figureH)));

function intervalsOf(
  rests: readonly UtcInterval[],
  within: UtcInterval,
): Pick<RestFigures, 'longestIntervalH' | 'longestOpenIntervalH'> {
  const [first, last] = [rests[0], rests.at(-1)];
  if (first === undefined || last === undefined)
    return { longestIntervalH: null, longestOpenIntervalH: lengthH(within) };
  const betweenH = rests
    .slice(1)
    .map((next, k) => lengthH({ startEpochMs: rests[k]?.endEpochMs ?? 0, endEpochMs: next.startEpochMs }));
  return {
    longestIntervalH: betweenH.length === 0 ? null : Math.max(...betweenH),
    longestOpenIntervalH: Math.max(
      lengthH({ ...within, endEpochMs: first.startEpochMs }),
      lengthH({ ...within, startEpochMs: last.endEpochMs }),
    ),
  };
}
