/** What the user fixes about the plan: hours, handlings, what is done already. */
export interface PlanOrders {
  /** By job id; only jobs with an order. */
  readonly jobs: ReadonlyMap<string, JobOrder>;
  /** Hours [from, to) in which nothing is worked, or not this job. */
  readonly forbidden: readonly ForbiddenTime[];
}

export interface ForbiddenTime {
  readonly fromEpochMs: number;
  readonly toEpochMs: number;
  /** null: every job. */
  readonly jobId: string | null;
}

export interface JobOrder {
  /** No start before it: the user's own, or the latest `readyUtc` of the locker items the job needs. */
  readonly notBeforeEpochMs: number | null;
  readonly finishByEpochMs: number | null;
  readonly lockedStartEpochMs: number | null;
  readonly lockedHandlingId: string | null;
  readonly isDone: boolean;
  /** Steps finished already, from the first on. */
  readonly doneStepIds: readonly string[];
  /** Minutes at pace 1 already worked in the first unfinished block, on top of its finished steps. */
  readonly doneMin: number;
  /** Tools held until the job's background wait is over; there is one of each on board. */
  readonly tools: readonly string[];
}
