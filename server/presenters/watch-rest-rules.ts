import type { Plan } from '../../lib/planner/index.ts';
import { amountText } from './amount-texts.ts';

/** What a rest rule of merchant ships asks beside what the plan holds: a yardstick, never a verdict on the plan. */
export interface RestRuleRow {
  readonly ruleId: string;
  readonly text: string;
  /** `at least 10 h` */
  readonly asks: string;
  /** `6.5 h`; `unknown` */
  readonly has: string;
  /** `short by 3.5 h`, `reached`, `the record is too short to say` */
  readonly words: string;
  readonly standing: 'reached' | 'missed' | 'unknown';
}

export const restRuleRows = ({ restRules }: Plan['watch']): RestRuleRow[] =>
  restRules.map((rule) => ({
    ruleId: rule.ruleId,
    text: rule.text,
    asks: `at ${isMost(rule) ? 'most' : 'least'} ${amountText(rule.required, rule.unit)}`,
    has: rule.observed === null ? 'unknown' : amountText(rule.observed, rule.unit),
    ...standingOf(rule),
  }));

type Rule = Plan['watch']['restRules'][number];

/** Of the time between two rests a rule asks for no more, of everything else for no less. */
const isMost = ({ ruleId }: Rule): boolean => ruleId.endsWith('interval');

function standingOf(rule: Rule): Pick<RestRuleRow, 'words' | 'standing'> {
  if (rule.met === null) return { standing: 'unknown', words: 'the record is too short to say' };
  if (rule.met) return { standing: 'reached', words: isMost(rule) ? 'not exceeded' : 'reached' };
  if (rule.observed === null) return { standing: 'missed', words: 'not reached' };
  const amount = amountText(Math.abs(rule.observed - rule.required), rule.unit);
  return { standing: 'missed', words: isMost(rule) ? `over by ${amount}` : `short by ${amount}` };
}
