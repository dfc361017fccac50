import type { StopNumbers } from '../../jobs/index.ts';
import type { REASON_CODES, STATUS_CODES } from './plan-codes.table.ts';

/** Start and end, whole minutes. */
export interface Span {
  readonly startEpochMs: number;
  readonly endEpochMs: number;
}

export interface WorkSpan extends Span {
  /** Id of the handling; null: none is said. */
  readonly handling: string | null;
}

/**
 * A plan as it is sent: every number lies on the scale it is sent in, so that what is read is equal to what was written.
 * Null: not said, or none, as each field tells.
 */
export interface PlanMessage {
  readonly kind: 'plan';
  /** When the plan was made: base time of the message. */
  readonly madeEpochMs: number;
  /** Whole; null: the plan has no number. */
  readonly planNumber: number | null;
  readonly forecastBaseEpochMs: number;
  /** After it only conservative defaults; null: not said. */
  readonly validUntilEpochMs: number | null;
  /** When the next forecast is expected; null: not said. */
  readonly nextForecastEpochMs: number | null;
  /** Against the plan that stood before; null: there was none. */
  readonly standing: 'kept' | 'changed' | null;
  /** Share of scenarios in which all planned jobs stay inside their limits together; whole per cent. */
  readonly allDoneProbability: number | null;
  /** Tenths. */
  readonly expectedDoneCount: number | null;
  /** Tenths. */
  readonly deckH: number | null;
  /** Tenths. */
  readonly lostNm: number | null;
  /** Tenths. */
  readonly sleepHPer24H: number | null;
  /** Whole. */
  readonly unwatchedMin: number | null;
  /** Jobs of the plan that the message leaves out. */
  readonly leftOutCount: number;
  readonly jobs: readonly PlanMessageJob[];
  /** Null: not said; empty: none is planned. */
  readonly sleeps: readonly Span[] | null;
  /** Words of the one who sends it, as `sendableNote` leaves them. */
  readonly note: string | null;
}

export interface PlanMessageJob {
  readonly jobId: string;
  readonly status: (typeof STATUS_CODES)[number]['status'];
  /** Stretches of work in order. */
  readonly work: readonly WorkSpan[];
  /** Soak, cure, drying by itself. */
  readonly waits: readonly Span[];
  /** Whole per cent; null: none. */
  readonly probability: number | null;
  readonly decideByEpochMs: number | null;
  readonly startBetween: { readonly firstEpochMs: number; readonly lastEpochMs: number } | null;
  readonly fallback: PlanMessageFallback | null;
  readonly bindingLimit: PlanMessageLimit | null;
  readonly stop: StopNumbers | null;
  /** Limits the forecast does not hold: ids of the planner, `other` for one the message has no code for. */
  readonly unknownLimits: readonly string[];
  readonly miss: PlanMessageMiss | null;
}

export interface PlanMessageFallback {
  readonly startEpochMs: number;
  /** Null: not said. */
  readonly lastStartEpochMs: number | null;
  readonly handling: string;
  readonly probability: number;
}

/** The limit that binds, in the unit of its code. */
export interface PlanMessageLimit {
  readonly limit: string;
  readonly observed: number;
  readonly required: number;
}

/** Why a job is not planned, and the start that comes nearest. */
export interface PlanMessageMiss {
  readonly reason: (typeof REASON_CODES)[number]['reason'];
  readonly startEpochMs: number | null;
  readonly handling: string | null;
  readonly probability: number | null;
}
