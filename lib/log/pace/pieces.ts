import type { Job, Step } from '../../jobs/index.ts';
import { blocksOf } from '../../jobs/index.ts';
import type { JobOrder } from '../../passage/index.ts';
import { MS_PER_MIN, type UtcInterval } from '../../time/index.ts';
import type { EffectiveEntry } from '../effective.ts';
import type { JobEventFile } from '../entry.ts';

/** Longer between two entries without minutes, and the clock tells nothing of the work; our choice, no source. */
export const LONGEST_CLOCK_MIN = 240;

/** Work between a start or a safe point and the next safe point or the end, breaks left out. */
export interface WorkPiece {
  readonly steps: readonly [Step, ...Step[]];
  /** When it was begun; null: nobody wrote it down. */
  readonly startEpochMs: number | null;
  readonly endEpochMs: number;
  /** Entry that ended it. */
  readonly entryNumber: number;
  /** null: neither minutes nor clock tell. */
  readonly workedMin: number | null;
  /** Whether all its minutes are written; else the time between entries stands for some of them. */
  readonly isWritten: boolean;
}

/** What besides the events of the job decides its pieces. */
export interface PieceContext {
  /** Steps finished before the log begins. */
  readonly order: Pick<JobOrder, 'isDone' | 'doneStepIds'> | null;
  /** Time in the bunk, not overlapping: it is not work. */
  readonly sleeps: readonly UtcInterval[];
}

/** An event of a job, and its entry. */
export interface JobEvent extends Pick<EffectiveEntry, 'number' | 'atEpochMs'> {
  readonly event: JobEventFile;
}

/** The finished pieces of a job, from its events in order of time. What is begun and not finished is no piece yet. */
export function workPieces(job: Job, events: readonly JobEvent[], of: PieceContext): readonly WorkPiece[] {
  if (of.order?.isDone === true) return [];
  const finished = of.order?.doneStepIds ?? [];
  const walk = new PieceWalk(
    job,
    of,
    job.steps.findIndex(({ id }) => !finished.includes(id)),
  );
  for (const event of events) walk.take(event);
  return walk.pieces;
}

/** Minutes of an unfinished piece. */
interface Carried {
  readonly workedMin: number | null;
  readonly isWritten: boolean;
  readonly firstEpochMs: number | null;
}

const NOTHING: Carried = { workedMin: 0, isWritten: true, firstEpochMs: null };

class PieceWalk {
  readonly pieces: WorkPiece[] = [];
  private carried = NOTHING;
  /** Since when it is worked at; null: it is left. */
  private sinceEpochMs: number | null = null;

  private readonly job: Job;
  private readonly of: PieceContext;
  private nextIndex: number;

  constructor(job: Job, of: PieceContext, nextIndex: number) {
    this.job = job;
    this.of = of;
    this.nextIndex = nextIndex;
  }

  take(at: JobEvent): void {
    if (this.nextIndex < 0 || this.nextIndex >= this.job.steps.length) return;
    switch (at.event.event) {
      case 'started':
        this.sinceEpochMs ??= at.atEpochMs;
        return;
      case 'stopped':
        this.carried = this.carriedTo(at);
        this.sinceEpochMs = null;
        return;
      case 'safe-point':
        this.finish(at, this.safePointIndex(at.event));
        return;
      case 'done':
        this.finish(at, this.job.steps.length - 1);
        return;
    }
  }

  private finish(at: JobEvent, lastIndex: number): void {
    const [first, ...rest] = this.job.steps.slice(this.nextIndex, lastIndex + 1);
    if (first === undefined) return;
    const { workedMin, isWritten, firstEpochMs } = this.carriedTo(at);
    const steps = [first, ...rest] as const;
    // The clock runs on while a cure or a soak does.
    const isWaitInside = !isWritten && this.carried === NOTHING && steps.slice(0, -1).some((step) => step.waitAfter);
    this.pieces.push({
      steps,
      startEpochMs: firstEpochMs,
      endEpochMs: at.atEpochMs,
      entryNumber: at.number,
      workedMin: isWaitInside ? null : workedMin,
      isWritten,
    });
    this.nextIndex = lastIndex + 1;
    this.carried = NOTHING;
    this.sinceEpochMs = this.sinceEpochMs === null ? null : at.atEpochMs;
  }

  private carriedTo(at: JobEvent): Carried {
    const written = at.event.workedMin;
    const sinceMin = written ?? this.clockMin(at.atEpochMs);
    return {
      workedMin: sinceMin === null || this.carried.workedMin === null ? null : this.carried.workedMin + sinceMin,
      isWritten: this.carried.isWritten && written !== undefined,
      firstEpochMs: this.carried.firstEpochMs ?? this.sinceEpochMs,
    };
  }

  /** Minutes since it was begun, sleep left out; null: not known. Nothing is worked between a stop and the next start. */
  private clockMin(untilEpochMs: number): number | null {
    if (this.sinceEpochMs === null) return this.carried === NOTHING ? null : 0;
    const sinceEpochMs = this.sinceEpochMs;
    const sleptMs = this.of.sleeps.reduce((sumMs, { startEpochMs, endEpochMs }) => {
      const overlapMs = Math.min(endEpochMs, untilEpochMs) - Math.max(startEpochMs, sinceEpochMs);
      return sumMs + Math.max(0, overlapMs);
    }, 0);
    const clockMin = (untilEpochMs - sinceEpochMs - sleptMs) / MS_PER_MIN;
    return clockMin > LONGEST_CLOCK_MIN ? null : clockMin;
  }

  /** The step that is named; without a name the next at which she may be left, but never the end of the job. */
  private safePointIndex({ stepId }: JobEventFile): number {
    if (stepId !== undefined) return this.job.steps.findIndex(({ id }) => id === stepId);
    const lasts = blocksOf(this.job).map(({ steps }) => this.job.steps.indexOf(steps.at(-1) ?? steps[0]));
    return lasts.find((index) => index >= this.nextIndex && index < this.job.steps.length - 1) ?? -1;
  }
}
