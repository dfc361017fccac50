/** The rest rules of merchant ships as yardsticks: figures of a record of rests, and what the rules ask. */
import type { SourceId } from '../sources/index.ts';
import type { UtcInterval } from '../time/index.ts';
import type { Constant } from './constant.ts';
import { daysBeforeRests, leastRestH, lengthH, restsOf } from './rest-record.ts';
import { MLC_REST, STCW_EXCEPTION, STCW_REST } from './rest-rules.table.ts';

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

export type RestRule = 'rest-24h' | 'rest-7d' | 'two-periods' | 'longest-period' | 'interval';
export type RestRuleId = `${'stcw' | 'mlc'}-${RestRule}` | 'stcw-exception-rest-7d' | 'stcw-exception-three-periods';

/** What one rule asks beside what the record holds. */
export interface RestRuleLine {
  readonly ruleId: RestRuleId;
  readonly name: string;
  /** null: the record is too short. */
  readonly observed: number | null;
  readonly required: number;
  readonly unit: string;
  /** null: the record is too short to tell; that is not a yes. */
  readonly met: boolean | null;
  readonly sourceId: SourceId | null;
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

const sumOfFirstH = (lengthsH: readonly number[], periodCount: number): number =>
  lengthsH.slice(0, periodCount).reduce((sumH, restH) => sumH + restH, 0);

const threePeriodsH = (lengthsH: readonly number[]): number =>
  sumOfFirstH(
    lengthsH.filter((restH) => restH >= STCW_EXCEPTION.otherPeriods.value),
    STCW_EXCEPTION.mostPeriods.value,
  );

const leastOf = (
  days: readonly (readonly number[])[],
  figureH: (lengthsH: readonly number[]) => number,
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

/** Every rule of STCW, its exceptions and MLC beside the figures, always all of them and in the same order. */
export const restRuleLines = (figures: RestFigures): readonly RestRuleLine[] => [
  ...rulesOf('stcw', STCW_REST, figures),
  atLeast(
    'stcw-exception-rest-7d',
    'STCW exception, two weeks at most: rest in any 7 days',
    figures.leastRest7DaysH,
    STCW_EXCEPTION.rest7Days,
  ),
  atLeast(
    'stcw-exception-three-periods',
    'STCW exception, two days of seven at most: rest of 24 hours in three periods of an hour or more',
    figures.leastThreePeriodsH,
    STCW_REST.rest24,
  ),
  ...rulesOf('mlc', MLC_REST, figures),
];

function rulesOf(
  code: 'stcw' | 'mlc',
  rules: typeof STCW_REST | typeof MLC_REST,
  figures: RestFigures,
): readonly RestRuleLine[] {
  const called = code.toUpperCase();
  return [
    atLeast(`${code}-rest-24h`, `${called}: rest in any 24 hours`, figures.leastRest24H, rules.rest24),
    atLeast(`${code}-rest-7d`, `${called}: rest in any 7 days`, figures.leastRest7DaysH, rules.rest7Days),
    atLeast(
      `${code}-two-periods`,
      `${called}: rest of 24 hours in its two longest periods`,
      figures.leastTwoPeriodsH,
      rules.rest24,
    ),
    atLeast(
      `${code}-longest-period`,
      `${called}: longest rest of 24 hours`,
      figures.leastLongestPeriodH,
      rules.longestPeriod,
    ),
    intervalLine(code, rules.interval, figures),
  ];
}

const atLeast = (ruleId: RestRuleId, name: string, observedH: number | null, limit: Constant): RestRuleLine => ({
  ...lineOf(ruleId, name, limit),
  observed: observedH,
  met: observedH === null ? null : observedH >= limit.value,
});

const lineOf = (ruleId: RestRuleId, name: string, limit: Constant): Omit<RestRuleLine, 'observed' | 'met'> => ({
  ruleId,
  name,
  required: limit.value,
  unit: 'h',
  sourceId: limit.sourceId,
});

/** The open ends of the record can break the rule but never show that it is kept. */
function intervalLine(code: 'stcw' | 'mlc', limit: Constant, figures: RestFigures): RestRuleLine {
  const { longestIntervalH, longestOpenIntervalH } = figures;
  const longestH = Math.max(longestIntervalH ?? 0, longestOpenIntervalH);
  const isBroken = longestH > limit.value;
  return {
    ...lineOf(`${code}-interval`, `${code.toUpperCase()}: longest time between two rests`, limit),
    observed: isBroken || longestIntervalH !== null ? longestH : null,
    met: isBroken ? false : longestIntervalH === null ? null : true,
  };
}
