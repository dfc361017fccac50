import type { LogNote } from './log-note.ts';

/** A step that is finished, and when that was written down. */
export interface FinishedStep {
  readonly stepId: string;
  /** At the latest then; null: the passage file says so, without a time. */
  readonly atEpochMs: number | null;
}

/** How far a job is. */
export interface JobState {
  readonly jobId: string;
  /** `stopped`: begun and left; it goes on from its last safe point. */
  readonly status: 'not-begun' | 'under-way' | 'stopped' | 'done';
  /** First start; null: none is logged. */
  readonly startedEpochMs: number | null;
  /** Last event; null: none is logged. */
  readonly lastEpochMs: number | null;
  /** null: it is not done, or nobody wrote when. */
  readonly doneEpochMs: number | null;
  /** Finished steps, from the first on. */
  readonly finishedSteps: readonly FinishedStep[];
  /** The last finished step after which she may be left; null: none. */
  readonly safePointStepId: string | null;
  /** Minutes worked since, as logged. */
  readonly workedMin: number;
  /** What of them need not be worked again, at pace 1; the rest is lost. */
  readonly doneMin: number;
  /** What stands oddly in the log of this job. */
  readonly notes: readonly LogNote[];
}
