import type { UtcInterval } from '../time/index.ts';

/** One piece of work as the user wants it. */
export interface OwnEntry {
  readonly jobId: string;
  readonly startEpochMs: number;
  /** null: the one the job prefers of those that exist with what is set. */
  readonly handlingId: string | null;
  /** null: the first block of the job that is not finished yet. */
  readonly blockIndex: number | null;
}

/** A plan made by hand. Sleeps are taken exactly as they are given; nothing is added to them. */
export interface OwnPlan {
  readonly entries: readonly OwnEntry[];
  readonly sleeps: readonly UtcInterval[];
}
