import type { WorkMinutes } from '../jobs/index.ts';

/**
 * What is asked of a step's scan: from `firstSlot + i`, after how many slots from `firstSlot` on a limit is broken first,
 * `[scenario * slotCount + i]`. A slot outside of the scan is broken at once.
 */
export interface LimitScan {
  readonly nextBroken: Int32Array;
  readonly firstSlot: number;
  readonly slotCount: number;
}

export interface RehearsedStep {
  readonly id: string;
  /** At library pace; of a session, the part of the step's minutes that belongs to it. */
  readonly work: WorkMinutes;
  /** Along the plan's own course, in the reporting scenarios. */
  readonly scan: LimitScan;
}

/** One piece of work of a plan. */
export interface RehearsalEntry {
  readonly jobId: string;
  /** False: a session, which may be stopped anywhere and taken up again. */
  readonly isCore: boolean;
  /** A limit is unknown: it counts in nothing that is said of the plan as a whole. */
  readonly conditional: boolean;
  readonly startSlot: number;
  /** Fixed minutes before the work of a session. */
  readonly resumeMin: number;
  /** All time factors at the planned start together: planned minutes over minutes at library pace. */
  readonly factorRatio: number;
  readonly steps: readonly RehearsedStep[];
  /** Minutes to leave the work safe when it is broken off. */
  readonly makeSafeMin: number;
  /** Entries (by place in the list) whose work must be finished, and for how many slots, before this one begins. */
  readonly after: readonly { readonly entryIndex: number; readonly waitSlotsFrom: (fromSlot: number) => number }[];
}

export interface RehearsalSettings {
  readonly seed: number;
  readonly slotMin: number;
  /** Slots of every scan; what lies beyond is unknown and counts as broken. */
  readonly slotCount: number;
  /** Of the scenarios; draw i meets scenario i and weighs as much. */
  readonly weights: Int32Array;
  /** Member behind each scenario, for the standard errors; null: eight blocks of draws. */
  readonly memberIndex: Int32Array | null;
  /** See `DrawSettings`. */
  readonly sobolSteps: readonly { readonly jobId: string; readonly stepId: string }[];
}

/** What becomes of one entry over all draws. Shares of weight, 0 to 1. */
export interface EntryRehearsal {
  readonly jobId: string;
  /** All its work done with every limit held; of a session, its part of the work. */
  readonly doneInsideLimitsProbability: number;
  /** Broken off in the middle; a core then stays undone. */
  readonly interruptedProbability: number;
  /** Never begun: what must come before is not finished, or a limit is broken when it should begin. */
  readonly notBegunProbability: number;
  /** Begun later than planned. */
  readonly lateProbability: number;
  /** Minutes from slot 0 to the end of its work, where it is done; null: in no draw. */
  readonly endMin: { readonly p10: number; readonly p50: number; readonly p90: number } | null;
}

export interface JobRehearsal {
  readonly jobId: string;
  readonly conditional: boolean;
  /** All that the plan holds of the job done with every limit held. */
  readonly doneInsideLimitsProbability: number;
  readonly doneInsideLimitsProbabilitySd: number;
  /** Some core of it is broken off in the middle. */
  readonly coreInterruptedProbability: number;
  /** Some entry of it begins later than planned. */
  readonly lateProbability: number;
  /** Minutes from slot 0 to its end, where it is done; null: in no draw. */
  readonly endMin: EntryRehearsal['endMin'];
}

export interface Rehearsal {
  readonly drawCount: number;
  /** In the order given. */
  readonly entries: readonly EntryRehearsal[];
  /** In the order of their first entries. */
  readonly jobs: readonly JobRehearsal[];
  /** Unconditional jobs together; null: there is none. */
  readonly allDoneInsideLimitsProbability: number | null;
  readonly allDoneInsideLimitsProbabilitySd: number | null;
  /** Unconditional jobs done inside their limits, on average. */
  readonly expectedJobsDoneCount: number;
}
