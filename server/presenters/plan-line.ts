import type { Plan } from '../../lib/planner/index.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

/** Which plan a page shows: `Plan 3, made Thu 08:12 (Wed 20:12 UTC)`. */
export function planLine({ planNumber, madeAtUtc }: Pick<Plan, 'planNumber' | 'madeAtUtc'>, times: TimeTexts): string {
  const made = epochOf(madeAtUtc);
  return `${planNumber === null ? 'Plan without a number' : `Plan ${planNumber}`}, made ${times.dayTime(made)} (${times.utc(made)})`;
}
