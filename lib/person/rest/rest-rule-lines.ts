/** The rest rules of merchant ships as yardsticks: what each asks beside what the record holds. */
import type { SourceId } from '../../sources/index.ts';
import type { Constant } from '../constant.ts';
import type { RestFigures } from './rest-rules.ts';
import { MLC_REST, STCW_EXCEPTION, STCW_REST } from './rest-rules.table.ts';

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
