import type { Position } from '../../geo/index.ts';
import type { JobEventFile, ObservationFile } from '../../log/index.ts';
import type { Span } from '../plan/plan-message.ts';

/**
 * What the boat tells: every value lies on the scale it is sent in, so that what is read is equal to what was written.
 * Null: not observed, which is not the same as nothing.
 */
export interface ReportMessage {
  readonly kind: 'report';
  /** When it was made: base time of the message. */
  readonly madeEpochMs: number;
  /** Every change of a job since then is in it. */
  readonly sinceEpochMs: number;
  /** Made good between the last two positions. */
  readonly madeGood: { readonly courseTowardDegTrue: number; readonly speedKn: number } | null;
  /** Change of pressure in the three hours before the last reading, reckoned from readings 2 to 4 h apart; tenths. */
  readonly pressureTrendHpa: number | null;
  /** In order of time, the newest last. */
  readonly observations: readonly ReportObservation[];
  /** Sleeps that reach into the last 24 h, as logged. */
  readonly sleeps: readonly ReportSleep[];
  /** Changes of jobs since `sinceEpochMs`, and the last one of every job that has not changed since. */
  readonly jobEvents: readonly ReportJobEvent[];
  readonly notes: readonly ReportNote[];
}

export interface ReportObservation {
  readonly atEpochMs: number;
  /** To a tenth of a minute of arc. */
  readonly position: Position | null;
  readonly sailState: string | null;
  readonly wind: ReportWind | null;
  readonly gustKn: number | null;
  readonly pressureHpa: number | null;
  readonly seaHeightM: number | null;
  readonly wavePeriodS: number | null;
  readonly sky: NonNullable<ObservationFile['sky']> | null;
  readonly rain: boolean | null;
  readonly visibilityNm: number | null;
  readonly airC: number | null;
  readonly seaWaterC: number | null;
  readonly note: string | null;
}

/** Speeds in tenths, angles whole; as the instrument showed it. */
export type ReportWind =
  | { readonly kind: 'true'; readonly speedKn: number; readonly fromDegTrue: number | null }
  | {
      readonly kind: 'apparent';
      readonly speedKn: number;
      readonly angleDeg: number;
      readonly headingDegTrue: number;
      readonly boatSpeedKn: number;
    };

export interface ReportSleep extends Span {
  readonly note: string | null;
}

export interface ReportJobEvent {
  readonly atEpochMs: number;
  readonly jobId: string;
  readonly event: JobEventFile['event'];
  readonly stepId: string | null;
  /** Whole. */
  readonly workedMin: number | null;
  readonly note: string | null;
}

export interface ReportNote {
  readonly atEpochMs: number;
  readonly note: string;
}
