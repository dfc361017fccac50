import { minutesText, ofHundred, type Wording } from '../reasons/index.ts';
import { formatAt } from '../time/index.ts';
import { changeReasons, type ChangeReason } from './change-reasons.ts';
import { neverSaid } from './never-said.ts';
import { reasonText } from './change-reasons-text.ts';
import { type PlanCause, planCausesText } from './plan-causes.ts';
import type { ComparablePlan, PlanChange } from './plan-changes.ts';

/** Whose clock the hours are told on. */
export interface ChangesWording {
  /** Minutes ahead of UTC; 0: UTC. */
  readonly shipTimeOffsetMin: number;
  /** Names of handlings by id; an id without one stands for itself. */
  readonly handlingNames?: Readonly<Record<string, string>>;
  /** Names of jobs by id, for reasons that speak of another job; `jobNamesOf` makes them of plans. */
  readonly jobNames?: Readonly<Record<string, string>>;
}

/** Names of the jobs of plans, those of the later plans last. */
export const jobNamesOf = (...plans: readonly ComparablePlan[]): Readonly<Record<string, string>> =>
  Object.fromEntries(plans.flatMap(({ jobs }) => jobs.map(({ jobId, name }) => [jobId, name])));

/**
 * One sentence for each change; with its reason (`changeReasons`) where one is given.
 *
 * @param reasons in the order of the changes; null: not known
 */
export const planChangesText = (
  changes: readonly PlanChange[],
  wording: ChangesWording,
  reasons: readonly (ChangeReason | null)[] = [],
): string[] =>
  changes.map((change, k) => becauseOf(changeText(change, wording), { change, reason: reasons[k] ?? null, wording }));

/** A reason on its own, as it stands after `because`; null: not known. */
export const changeReasonText = (reason: ChangeReason | null, wording: ChangesWording): string | null =>
  reason === null ? null : reasonText(reason, reasonWording(wording));

/** Kinds whose sentence tells its reason already. */
const TOLD: readonly PlanChange['kind'][] = ['no-longer-planned', 'done', 'listed', 'not-listed'];

function becauseOf(
  sentence: string,
  of: { change: PlanChange; reason: ChangeReason | null; wording: ChangesWording },
): string {
  const because = changeReasonText(of.reason, of.wording);
  if (because === null || TOLD.includes(of.change.kind)) return sentence;
  return `${sentence.replace(/\.$/, '')}, because ${because}.`;
}

const reasonWording = ({ shipTimeOffsetMin, handlingNames, jobNames }: ChangesWording): Wording => ({
  shipTimeOffsetMin,
  nameOf: (id) => jobNames?.[id] ?? lowerFirst(handlingNames?.[id] ?? id),
});

/** The two plans and what lies between them, for a terminal. */
export function comparedPlansText(
  plans: { readonly older: ComparablePlan; readonly newer: ComparablePlan },
  of: { readonly changes: readonly PlanChange[]; readonly causes?: readonly PlanCause[] },
  wording: ChangesWording,
): string {
  const { older, newer } = plans;
  const from = `${numbered(older) ?? 'the plan'} of ${time(older.madeAtUtc, wording)}`;
  const newerNumber = numbered(newer);
  const to = `${newerNumber === null ? '' : `${newerNumber} of `}${time(newer.madeAtUtc, wording)}`;
  const clock = wording.shipTimeOffsetMin === 0 ? 'UTC' : 'ship’s time';
  const named = { jobNames: jobNamesOf(older, newer), ...wording };
  const bullet = (line: string): string => `  - ${line}`;
  const causes = planCausesText(of.causes ?? [], named).map(bullet);
  const lines = planChangesText(of.changes, named, changeReasons(plans, of.changes)).map(bullet);
  return [
    `${newer.passageName}: from ${from} to ${to} (${clock}).`,
    ...(causes.length === 0 ? [] : ['  New since then:', ...causes, '  What changed:']),
    ...(lines.length === 0 ? ['  Nothing has changed.'] : lines),
  ].join('\n');
}

const numbered = ({ planNumber }: ComparablePlan): string | null =>
  planNumber === undefined || planNumber === null ? null : `plan ${planNumber}`;

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
  return lowerFirst(name);
}

const lowerFirst = (name: string): string => name.charAt(0).toLowerCase() + name.slice(1);
