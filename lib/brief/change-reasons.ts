/** Why the newer of two plans differs from the older: by what the two say themselves, with the amounts. */
import type { NotEarlier } from '../planner/index.ts';
import { MS_PER_MIN } from '../time/index.ts';
import { neverSaid } from './never-said.ts';
import type { ComparableJob, ComparablePlan, PlanChange } from './plan-changes.ts';

type Found = NonNullable<NotEarlier['finding']>;

export type ChangeReason =
  /** What stands against the start of the older plan now. */
  | { readonly kind: 'against-old-start'; readonly startUtc: string; readonly finding: Found }
  /** What stood against the new start when the older plan was made. */
  | { readonly kind: 'no-longer-against'; readonly startUtc: string; readonly finding: Found }
  /** The older start lies before the newer plan begins. */
  | { readonly kind: 'start-passed'; readonly startUtc: string; readonly byMin: number }
  /** What binds now; `fromObserved` null: something else did, or it is not known. */
  | {
      readonly kind: 'limit';
      readonly limit: string;
      readonly unit: string;
      readonly required: number;
      readonly fromObserved: number | null;
      readonly toObserved: number;
    }
  /** What came nearest in the older plan, which did not plan it. */
  | { readonly kind: 'missed-before'; readonly text: string }
  /** Limits the forecast does not hold, or holds now. */
  | { readonly kind: 'not-held' | 'held-now'; readonly limits: readonly string[] }
  /** The job that moves the whole most. */
  | {
      readonly kind: 'job';
      readonly name: string;
      readonly fromProbability: number | null;
      readonly toProbability: number;
    }
  /** Jobs that count no longer in the whole, or do now. */
  | { readonly kind: 'jobs-out' | 'jobs-in'; readonly names: readonly string[] }
  /** A sentence of the newer plan. */
  | { readonly kind: 'said'; readonly text: string }
  | { readonly kind: 'logged' | 'edited' };

/** The reason of every change, in their order; null: the plans do not tell. */
export function changeReasons(
  plans: { readonly older: ComparablePlan; readonly newer: ComparablePlan },
  changes: readonly PlanChange[],
): (ChangeReason | null)[] {
  const jobs = {
    older: new Map(plans.older.jobs.map((job) => [job.jobId, job])),
    newer: new Map(plans.newer.jobs.map((job) => [job.jobId, job])),
  };
  return changes.map((change) => {
    if (change.jobId === null) return wholeReason(plans);
    return reasonOf(change, { old: jobs.older.get(change.jobId), job: jobs.newer.get(change.jobId) }, plans.newer);
  });
}

interface Twice {
  readonly old: ComparableJob | undefined;
  readonly job: ComparableJob | undefined;
}

function reasonOf(change: Exclude<PlanChange, { jobId: null }>, of: Twice, newer: ComparablePlan): ChangeReason | null {
  switch (change.kind) {
    case 'moved':
    case 'fallback-used':
      return change.byMin > 0 ? laterReason(change.fromUtc, of.job, newer) : earlierReason(change.toUtc, of);
    case 'handling':
    case 'probability':
      return limitReason(of) ?? said(of.job?.why);
    case 'newly-planned':
      return missedReason(of);
    case 'no-longer-planned':
      return said(change.why);
    case 'conditional-now':
      return limitsReason('not-held', of.job);
    case 'known-now':
      return limitsReason('held-now', of.old);
    case 'done':
      return { kind: 'logged' };
    case 'listed':
    case 'not-listed':
      return { kind: 'edited' };
    default:
      return neverSaid(change);
  }
}

function missedReason({ old, job }: Twice): ChangeReason | null {
  const missed = old?.nearestMiss?.text;
  return missed === undefined ? said(job?.why) : { kind: 'missed-before', text: missed };
}

const said = (text: string | null | undefined): ChangeReason | null =>
  text === undefined || text === null || text === '' ? null : { kind: 'said', text };

function laterReason(fromUtc: string, job: ComparableJob | undefined, newer: ComparablePlan): ChangeReason | null {
  const passedMin = (Date.parse(newer.madeAtUtc) - Date.parse(fromUtc)) / MS_PER_MIN;
  if (passedMin > 0) return { kind: 'start-passed', startUtc: fromUtc, byMin: passedMin };
  const finding = against(job, fromUtc);
  if (finding !== null) return { kind: 'against-old-start', startUtc: fromUtc, finding };
  const hasStretches = (job?.notEarlier ?? []).length > 0;
  return said(hasStretches ? job?.why : job?.whyNotEarlier) ?? said(job?.why);
}

function earlierReason(toUtc: string, { old, job }: Twice): ChangeReason | null {
  const finding = against(old, toUtc);
  return finding === null ? said(job?.why) : { kind: 'no-longer-against', startUtc: toUtc, finding };
}

/** What a plan says against a start of a job earlier than its own. */
function against(job: ComparableJob | undefined, startUtc: string): Found | null {
  const at = Date.parse(startUtc);
  const stretch = (job?.notEarlier ?? []).find(
    ({ firstStartUtc, lastStartUtc }) => Date.parse(firstStartUtc) <= at && at <= Date.parse(lastStartUtc),
  );
  return stretch?.finding ?? null;
}

function limitReason({ old, job }: Twice): ChangeReason | null {
  const now = job?.bindingLimit ?? null;
  if (now === null) return null;
  const before = old?.bindingLimit ?? null;
  const { limit, unit, required, observed } = now;
  const isSame = before !== null && before.limit === limit && before.unit === unit;
  return { kind: 'limit', limit, unit, required, fromObserved: isSame ? before.observed : null, toObserved: observed };
}

function limitsReason(kind: 'not-held' | 'held-now', job: ComparableJob | undefined): ChangeReason | null {
  const limits = job?.unknownLimits ?? [];
  return limits.length === 0 ? null : { kind, limits };
}

/** What moved the whole: jobs it lost or won, else the job that moved most its way; where none did, the least sure one. */
function wholeReason({ older, newer }: { older: ComparablePlan; newer: ComparablePlan }): ChangeReason | null {
  const from = older.totals.allDoneProbability;
  const to = newer.totals.allDoneProbability;
  const way = from === null || to === null ? 0 : Math.sign(to - from);
  const out = plannedOnlyIn(older, newer);
  const added = plannedOnlyIn(newer, older);
  if (way >= 0 && out.length > 0) return { kind: 'jobs-out', names: out };
  if (way <= 0 && added.length > 0) return { kind: 'jobs-in', names: added };
  return movedMost(older, newer, way);
}

/** Names of jobs that are planned in one plan; in the other they are neither that nor done. */
function plannedOnlyIn(one: ComparablePlan, other: ComparablePlan): string[] {
  const status = new Map(other.jobs.map((job) => [job.jobId, job.status]));
  return one.jobs
    .filter((job) => job.status === 'planned' && !['planned', 'done'].includes(status.get(job.jobId) ?? 'absent'))
    .map(({ name }) => name);
}

function movedMost(older: ComparablePlan, newer: ComparablePlan, wayN: number): ChangeReason | null {
  const before = new Map(older.jobs.map((job) => [job.jobId, job.probability]));
  const jobs = newer.jobs.flatMap(({ jobId, name, status, probability }) => {
    if (status !== 'planned' || probability === null) return [];
    const fromProbability = before.get(jobId) ?? null;
    const moved = fromProbability === null ? 0 : (probability - fromProbability) * wayN;
    return [{ name, fromProbability, toProbability: probability, moved }];
  });
  const [first] = jobs.toSorted((a, b) => b.moved - a.moved || a.toProbability - b.toProbability);
  if (first === undefined) return null;
  const { moved: _moved, ...job } = first;
  return { kind: 'job', ...job };
}
