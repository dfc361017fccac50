import { blockMinutes, type Job } from '../../jobs/index.ts';
import type { JobOrder } from '../../passage/index.ts';
import { PACE_RATIO_RANGE, WORK_KINDS, type WorkKind } from '../../person/index.ts';
import { stepWorkKind } from '../../planner/index.ts';
import { effectiveEntries, instantOf } from '../effective.ts';
import type { NumberedEntry } from '../entry.ts';
import { plannedFactorsRatio, type PlanWithFactors } from './planned-factors.ts';
import { workPieces, type JobEvent, type WorkPiece } from './pieces.ts';

/** What is known of the work besides the log. */
export interface MeasureOptions {
  /** What the passage file says is done, by job id. */
  readonly orders?: ReadonlyMap<string, Pick<JobOrder, 'isDone' | 'doneStepIds'>>;
  /** Plans that were kept, for what the hours of the work were planned to cost; without one of them the times given stand. */
  readonly plans?: readonly PlanWithFactors[];
}

/** Why a piece of work says nothing of pace. */
export type LeftOut = 'minutes-unknown' | 'mixed-kinds';

/** A finished piece of work, held against its plan. */
export interface WorkMeasure extends Omit<WorkPiece, 'steps'> {
  readonly jobId: string;
  readonly jobName: string;
  readonly stepIds: readonly string[];
  /** The kind of more than half of it; null: it is of several kinds. */
  readonly workKind: WorkKind | null;
  /** Half of all tries stay within, at pace 1, time factors included where they are known. */
  readonly plannedMin: number;
  /** Time factors of its hours, own pace left out; null: not known, and reckoned as 1. */
  readonly factorsRatio: number | null;
  /** Worked over planned minutes, within `PACE_RATIO_RANGE`; null: left out. */
  readonly ratio: number | null;
  /** Worked over planned minutes as they are; null: minutes are not known. */
  readonly rawRatio: number | null;
  readonly leftOut: LeftOut | null;
}

/** Every finished piece of work of the log, in order of time. */
export function workMeasures(
  entries: readonly NumberedEntry[],
  jobs: readonly Job[],
  options: MeasureOptions = {},
): readonly WorkMeasure[] {
  const effective = effectiveEntries(entries);
  const sleeps = effective.flatMap(({ statement, atEpochMs }) =>
    statement.kind === 'sleep' ? [{ startEpochMs: atEpochMs, endEpochMs: instantOf(statement.endUtc) }] : [],
  );
  return jobs
    .flatMap((job) => {
      const events = effective.flatMap(({ number, statement, atEpochMs }): JobEvent[] =>
        statement.kind === 'job' && statement.jobId === job.id ? [{ number, atEpochMs, event: statement }] : [],
      );
      const order = options.orders?.get(job.id) ?? null;
      return workPieces(job, events, { order, sleeps }).map((piece) => measureOf(piece, job, options.plans ?? []));
    })
    .toSorted((a, b) => a.endEpochMs - b.endEpochMs || a.entryNumber - b.entryNumber);
}

function measureOf(piece: WorkPiece, job: Job, plans: readonly PlanWithFactors[]): WorkMeasure {
  const { steps, ...when } = piece;
  const factorsRatio = plannedFactorsRatio(piece, { jobId: job.id, plans });
  const plannedMin = blockMinutes({ steps }).p50Min * (factorsRatio ?? 1);
  const workKind = mainKind(piece, job);
  // No minutes at all is a job found done, not one done fast.
  const isKnown = when.workedMin !== null && when.workedMin > 0;
  const rawRatio = isKnown && when.workedMin !== null ? when.workedMin / plannedMin : null;
  const leftOut = rawRatio === null ? 'minutes-unknown' : workKind === null ? 'mixed-kinds' : null;
  return {
    ...when,
    jobId: job.id,
    jobName: job.name,
    stepIds: steps.map(({ id }) => id),
    workKind,
    plannedMin,
    factorsRatio,
    ratio: leftOut === null && rawRatio !== null ? withinRange(rawRatio) : null,
    rawRatio,
    leftOut,
  };
}

const withinRange = (ratio: number): number =>
  Math.min(PACE_RATIO_RANGE.mostRatio, Math.max(PACE_RATIO_RANGE.leastRatio, ratio));

/** The kind that more than half of the planned minutes are of: the minutes of single steps are not in the log. */
function mainKind({ steps }: WorkPiece, job: Job): WorkKind | null {
  const minutesOf = (kind: WorkKind | null): number =>
    steps
      .filter(({ id }) => kind === null || stepWorkKind(job, id) === kind)
      .reduce((sumMin, { work }) => sumMin + (work.leastMin + 4 * work.likelyMin + work.mostMin) / 6, 0);
  return WORK_KINDS.find((kind) => minutesOf(kind) > minutesOf(null) / 2) ?? null;
}
