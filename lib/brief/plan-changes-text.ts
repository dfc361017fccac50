import { minutesText, ofHundred } from '../reasons/index.ts';
import { formatAt } from '../time/index.ts';
import type { ComparablePlan, PlanChange } from './plan-changes.ts';

/** Whose clock the hours are told on. */
export interface ChangesWording {
  /** Minutes ahead of UTC; 0: UTC. */
  readonly shipTimeOffsetMin: number;
  /** Names of handlings by id; an id without one stands for itself. */
  readonly handlingNames?: Readonly<Record<string, string>>;
}

/** One sentence for each change. */
export const planChangesText = (changes: readonly PlanChange[], wording: ChangesWording): string[] =>
  changes.map((change) => changeText(change, wording));

/** The two plans and what lies between them, for a terminal. */
export function comparedPlansText(
  plans: { readonly older: ComparablePlan; readonly newer: ComparablePlan },
  changes: readonly PlanChange[],
  wording: ChangesWording,
): string {
  const { older, newer } = plans;
  const made = [older, newer].map((plan) => time(plan.madeAtUtc, wording)).join(' to ');
  const clock = wording.shipTimeOffsetMin === 0 ? 'UTC' : 'ship’s time';
  const lines = planChangesText(changes, wording).map((line) => `  - ${line}`);
  return [
    `${newer.passageName}: from the plan of ${made} (${clock}).`,
    ...(lines.length === 0 ? ['  Nothing has changed.'] : lines),
  ].join('\n');
}

const time = (utc: string, { shipTimeOffsetMin }: ChangesWording): string =>
  formatAt(Date.parse(utc), shipTimeOffsetMin, 'ccc d LLL HH:mm');

const share = (probability: number | null): string =>
  probability === null ? 'an unknown share' : ofHundred(probability);

function changeText(change: PlanChange, wording: ChangesWording): string {
  switch (change.kind) {
    case 'all-done':
      return `All planned jobs together: ${share(change.toProbability)}, it was ${share(change.fromProbability)}.`;
    case 'moved':
      return `${change.name}: ${movedText(change, wording)}.`;
    case 'fallback-used':
      return `${change.name}: the fallback is used, ${movedText(change, wording)}.`;
    case 'handling':
      return `${change.name}: ${handling(change.to, wording)} instead of ${handling(change.from, wording)}.`;
    case 'probability':
      return `${change.name}: inside its limits in ${share(change.toProbability)}, it was ${share(change.fromProbability)}.`;
    case 'newly-planned':
      return `${change.name}: planned now, ${time(change.toUtc, wording)}, ${share(change.probability)}.`;
    case 'no-longer-planned':
      return `${change.name}: no longer planned. ${change.why}`.trimEnd();
    case 'conditional-now':
      return `${change.name}: conditional now, the forecast no longer holds all its limits.`;
    case 'known-now':
      return `${change.name}: no longer conditional, the forecast holds all its limits.`;
    case 'done':
      return `${change.name}: done.`;
    case 'listed':
      return `${change.name}: new in the list.`;
    case 'not-listed':
      return `${change.name}: no longer in the list.`;
    default:
      return neverSaid(change);
  }
}

function movedText(change: { byMin: number; fromUtc: string; toUtc: string }, wording: ChangesWording): string {
  const later = change.byMin > 0 ? 'later' : 'earlier';
  return `${minutesText(Math.abs(change.byMin))} ${later}, ${time(change.toUtc, wording)} instead of ${time(change.fromUtc, wording)}`;
}

function handling(id: string, { handlingNames }: ChangesWording): string {
  const name = handlingNames?.[id] ?? id;
  return name.charAt(0).toLowerCase() + name.slice(1);
}

function neverSaid(change: never): never {
  throw new Error(`a change without words: ${JSON.stringify(change)}`);
}
