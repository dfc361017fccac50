import { findingText, minutesText, ofHundred, ruleWords, shipTime, type Wording } from '../reasons/index.ts';
import { parseUtc } from '../time/index.ts';
import { neverSaid } from './never-said.ts';
import type { ChangeReason } from './change-reasons.ts';

/** A reason as a clause after `because`, without a full stop at its end. */
export function reasonText(reason: ChangeReason, wording: Wording): string {
  const time = (utc: string): string => shipTime(Date.parse(utc), wording);
  switch (reason.kind) {
    case 'against-old-start':
      return `for the start at ${time(reason.startUtc)}: ${found(reason, wording)}`;
    case 'no-longer-against':
      return `what stood against ${time(reason.startUtc)} is gone: ${found(reason, wording)}`;
    case 'start-passed':
      return `${time(reason.startUtc)} passed ${minutesText(reason.byMin)} before this plan`;
    case 'limit':
      return limitText(reason);
    case 'missed-before':
      return `what kept it out no longer holds: ${clause(reason.text)}`;
    case 'not-held':
      return `the forecast does not hold ${reason.limits.map(ruleWords).join(', ')}`;
    case 'held-now':
      return `the forecast now holds ${reason.limits.map(ruleWords).join(', ')}`;
    case 'job':
      return `"${reason.name}" alone holds in ${ofHundred(reason.toProbability)}${was(reason.fromProbability)}`;
    case 'jobs-out':
      return `${counted(reason.names)} no longer in it: ${quoted(reason.names)}`;
    case 'jobs-in':
      return `${counted(reason.names)} new in it: ${quoted(reason.names)}`;
    case 'said':
      return clause(reason.text);
    case 'logged':
      return 'it is logged or marked as done';
    case 'edited':
      return 'the list of jobs was changed';
    default:
      return neverSaid(reason);
  }
}

const counted = (names: readonly string[]): string => (names.length === 1 ? '1 job is' : `${names.length} jobs are`);
const quoted = (names: readonly string[]): string => names.map((name) => `"${name}"`).join(', ');

const was = (fromProbability: number | null): string =>
  fromProbability === null ? '' : `, it was ${ofHundred(fromProbability)}`;

function found({ finding }: Extract<ChangeReason, { finding: unknown }>, wording: Wording): string {
  const { atUtc, ...rest } = finding;
  const at = atUtc === null ? null : parseUtc(atUtc, 'plan');
  return findingText({ ...rest, atEpochMs: at?.ok === true ? at.value : null }, wording);
}

function limitText({
  limit,
  unit,
  required,
  fromObserved,
  toObserved,
}: Extract<ChangeReason, { kind: 'limit' }>): string {
  const amount = (value: number): string => (unit === 'ratio' ? value.toFixed(3) : `${value.toFixed(1)} ${unit}`);
  const before =
    fromObserved === null || amount(fromObserved) === amount(toObserved) ? '' : `, it was ${amount(fromObserved)}`;
  return `${ruleWords(limit)} binds: ${amount(toObserved)} expected at its worst${before}, limit ${amount(required)}`;
}

/** A sentence inside another: no capital at its beginning, no full stop at its end. */
const clause = (text: string): string => {
  const trimmed = text.trim().replace(/\.$/, '');
  return trimmed.charAt(0).toLowerCase() + trimmed.slice(1);
};
