import type { Plan, PlannedJob } from '../planner/index.ts';
import { MS_PER_MIN } from '../time/index.ts';

/** What of a plan is compared: a part of its published JSON. */
export interface ComparablePlan extends Pick<Plan, 'madeAtUtc' | 'passageName'> {
  /** Absent and null: it is not numbered. */
  readonly planNumber?: Plan['planNumber'];
  /** Absent: not known. */
  readonly forecast?: Pick<Plan['forecast'], 'baseTimeUtc'>;
  readonly totals: Pick<Plan['totals'], 'allDoneProbability'>;
  readonly jobs: readonly ComparableJob[];
}

/** What stands behind `?` is for the reasons of a change; where it is absent they are not known. */
export interface ComparableJob extends Pick<
  PlannedJob,
  'jobId' | 'name' | 'status' | 'startUtc' | 'handling' | 'probability'
> {
  readonly fallback: Pick<NonNullable<PlannedJob['fallback']>, 'startUtc' | 'lastStartUtc'> | null;
  readonly nearestMiss: Pick<NonNullable<PlannedJob['nearestMiss']>, 'reason' | 'text'> | null;
  readonly why?: PlannedJob['why'];
  readonly whyNotEarlier?: PlannedJob['whyNotEarlier'];
  readonly notEarlier?: PlannedJob['notEarlier'];
  readonly bindingLimit?: Pick<
    NonNullable<PlannedJob['bindingLimit']>,
    'limit' | 'observed' | 'required' | 'unit'
  > | null;
  readonly unknownLimits?: PlannedJob['unknownLimits'];
}

/** One difference between two plans. `jobId` null: it is about the whole. */
export type PlanChange =
  | ({ readonly kind: 'moved'; readonly byMin: number; readonly fromUtc: string; readonly toUtc: string } & OfJob)
  | ({
      readonly kind: 'fallback-used';
      readonly byMin: number;
      readonly fromUtc: string;
      readonly toUtc: string;
    } & OfJob)
  | ({ readonly kind: 'handling'; readonly from: string; readonly to: string } & OfJob)
  | ({ readonly kind: 'probability'; readonly fromProbability: number; readonly toProbability: number } & OfJob)
  | ({ readonly kind: 'newly-planned'; readonly toUtc: string; readonly probability: number | null } & OfJob)
  | ({ readonly kind: 'no-longer-planned'; readonly reason: string; readonly why: string } & OfJob)
  | ({ readonly kind: 'conditional-now' | 'known-now' | 'done' | 'listed' | 'not-listed' } & OfJob)
  | {
      readonly kind: 'all-done';
      readonly jobId: null;
      readonly fromProbability: number | null;
      readonly toProbability: number | null;
    };

interface OfJob {
  readonly jobId: string;
  readonly name: string;
}

/** Smaller differences of a probability are not worth a line. */
const LEAST_DIFFERENCE = 0.01;

/**
 * What changed between two plans, job by job in the order of the newer, what it no longer lists at the end, and first of all
 * the probability of the whole. Made of the published plans alone: nothing is computed anew.
 *
 * @returns empty: nothing worth a line
 */
export function planChanges(older: ComparablePlan, newer: ComparablePlan): PlanChange[] {
  const before = new Map(older.jobs.map((job) => [job.jobId, job]));
  const listed = new Set(newer.jobs.map((job) => job.jobId));
  return [
    ...wholeChanges(older, newer),
    ...newer.jobs.flatMap((job) => {
      const old = before.get(job.jobId);
      return old === undefined ? addedChanges(job) : jobChanges(old, job);
    }),
    ...older.jobs.filter((job) => !listed.has(job.jobId)).map((job) => ({ ...of(job), kind: 'not-listed' as const })),
  ];
}

const of = ({ jobId, name }: ComparableJob): OfJob => ({ jobId, name });

function wholeChanges(older: ComparablePlan, newer: ComparablePlan): PlanChange[] {
  const fromProbability = older.totals.allDoneProbability;
  const toProbability = newer.totals.allDoneProbability;
  const isSame =
    fromProbability === null || toProbability === null
      ? fromProbability === toProbability
      : Math.abs(toProbability - fromProbability) < LEAST_DIFFERENCE;
  return isSame ? [] : [{ kind: 'all-done', jobId: null, fromProbability, toProbability }];
}

const addedChanges = (job: ComparableJob): PlanChange[] => [
  { ...of(job), kind: 'listed' },
  ...(isPlanned(job) ? [newlyPlanned(job)] : []),
];

const isPlanned = ({ status }: ComparableJob): boolean => status === 'planned' || status === 'conditional';

const newlyPlanned = (job: ComparableJob): PlanChange => ({
  ...of(job),
  kind: 'newly-planned',
  toUtc: job.startUtc ?? '',
  probability: job.probability,
});

function jobChanges(old: ComparableJob, job: ComparableJob): PlanChange[] {
  if (job.status === 'done') return old.status === 'done' ? [] : [{ ...of(job), kind: 'done' }];
  if (!isPlanned(job)) return isPlanned(old) || old.status === 'done' ? [noLongerPlanned(job)] : [];
  if (!isPlanned(old)) return [newlyPlanned(job)];
  return [...moveChanges(old, job), ...handlingChanges(old, job), ...surenessChanges(old, job)];
}

const noLongerPlanned = (job: ComparableJob): PlanChange => ({
  ...of(job),
  kind: 'no-longer-planned',
  reason: job.nearestMiss?.reason ?? 'unknown',
  why: job.nearestMiss?.text ?? '',
});

/** A start that moved; into the span the older plan had kept for it: its fallback is used. */
function moveChanges(old: ComparableJob, job: ComparableJob): PlanChange[] {
  if (old.startUtc === null || job.startUtc === null || old.startUtc === job.startUtc) return [];
  const byMin = (Date.parse(job.startUtc) - Date.parse(old.startUtc)) / MS_PER_MIN;
  const kind = isInFallback(old, job.startUtc) ? 'fallback-used' : 'moved';
  return [{ ...of(job), kind, byMin, fromUtc: old.startUtc, toUtc: job.startUtc }];
}

function isInFallback({ fallback }: ComparableJob, startUtc: string): boolean {
  if (fallback === null) return false;
  const startEpochMs = Date.parse(startUtc);
  return startEpochMs >= Date.parse(fallback.startUtc) && startEpochMs <= Date.parse(fallback.lastStartUtc);
}

function handlingChanges(old: ComparableJob, job: ComparableJob): PlanChange[] {
  if (old.handling === null || job.handling === null || old.handling === job.handling) return [];
  return [{ ...of(job), kind: 'handling', from: old.handling, to: job.handling }];
}

function surenessChanges(old: ComparableJob, job: ComparableJob): PlanChange[] {
  if (old.status !== job.status)
    return [{ ...of(job), kind: job.status === 'conditional' ? 'conditional-now' : 'known-now' }];
  if (old.probability === null || job.probability === null) return [];
  if (Math.abs(job.probability - old.probability) < LEAST_DIFFERENCE) return [];
  return [{ ...of(job), kind: 'probability', fromProbability: old.probability, toProbability: job.probability }];
}
