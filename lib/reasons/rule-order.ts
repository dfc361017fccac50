import { LIMIT_IDS } from '../windows/index.ts';
import type { RuleId } from './finding.ts';

/** Rules that no weather and no rest can help come first, then the weather, the person, the rest of the plan, and cost. */
const FIRST: readonly RuleId[] = [
  'materials',
  'twice',
  'past',
  'not-before',
  'precedence',
  'wait',
  'session-rest',
  'effort-rest',
  'handling',
  'sail-state',
  'tool',
  'forbidden-hours',
  'horizon',
  'finish-by',
  'lock',
  'lock-handling',
];
const LAST: readonly RuleId[] = ['settle', 'overlap', 'longest-sleep', 'joint', 'cost'];
const WEATHER: ReadonlySet<RuleId> = new Set<RuleId>([
  ...LIMIT_IDS,
  'pace',
  'cold-hands',
  'look-out',
  'wanted-probability',
]);

/** Place of a rule in the order they are told in: lower comes first. Rules of one kind share a place where weather tells by share. */
export function rankOf(rule: RuleId): number {
  const first = FIRST.indexOf(rule);
  if (first >= 0) return first;
  if (WEATHER.has(rule)) return FIRST.length;
  const last = LAST.indexOf(rule);
  return last >= 0 ? FIRST.length + 2 + last : FIRST.length + 1;
}
