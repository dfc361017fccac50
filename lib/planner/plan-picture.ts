import type { HourValues } from './hour-values.ts';
import type { Spread } from './spread.ts';

export type { Spread };

/**
 * What a page draws beside the plan: the hours themselves. Types only; filled by whoever makes the plan.
 *
 * Arrays stand on one axis, `slotEpochMs`: evenly spaced instants, ascending. NaN in them: the forecast does not hold
 * the value there, and it is shown as unknown.
 */
export interface PlanPicture {
  readonly nowEpochMs: number;
  /** `fixed`: the passage holds its clock at one instant (demo, tests). */
  readonly clock: 'live' | 'fixed';
  /** Ship's time, minutes ahead of UTC. */
  readonly shipTimeOffsetMin: number;
  readonly wantedProbability: number;
  readonly slotEpochMs: Float64Array;
  /** One per slot. */
  readonly light: readonly ('day' | 'civil' | 'nautical' | 'night')[];
  /** Mean alertness in the points of the three-process model, following the plan's sleep. */
  readonly alertnessPoints: Float32Array;
  /** Lapses of the unified model, following the plan's sleep. */
  readonly lapses: Float32Array;
  /** Hour of the body clock. */
  readonly bodyClockH: Float32Array;
  readonly seaHeightM: Spread;
  readonly rainMmPerH: Float32Array;
  readonly airC: Float32Array;
  /** Of the reference run. */
  readonly wavePeriodS: Float32Array;
  /** What can be read of every hour beside these; along the course of the plan. */
  readonly hours: HourValues;
  /** Median true wind at 10 m, about every three hours: the barbs. */
  readonly trueWind: readonly TrueWindAt[];
  /** One for each job of the plan, unplanned ones too. */
  readonly jobs: readonly JobPicture[];
  /** Names of the handlings by id. */
  readonly handlingNames: Readonly<Record<string, string>>;
  /** Settings nobody has edited, as `longest sleep` and `180 min`. */
  readonly defaults: readonly DefaultSetting[];
}

export interface WideSpread extends Spread {
  readonly p25: Float32Array;
  readonly p75: Float32Array;
}

export interface TrueWindAt {
  readonly atEpochMs: number;
  readonly windKn: number;
  readonly windFromDegTrue: number;
  /** The hemisphere decides the side of a barb's feathers. */
  readonly lat: number;
}

/** One job under its handling: the planned one, else that of the nearest miss, else the job's first. */
export interface JobPicture {
  readonly jobId: string;
  readonly handling: string;
  readonly deckWindKn: WideSpread;
  /** Median gust over the deck. */
  readonly deckGustKn: Float32Array;
  readonly limits: PictureLimits;
  /** The alertness line that gates the job; null: none. */
  readonly leastAlertnessPoints: number | null;
  /** All spans of start times, in order of time. */
  readonly windows: readonly StartSpan[];
  /** One standard error of the job's probability; null where it has none. */
  readonly probabilitySd: number | null;
  /** Work expected, waits left out; null: not planned. */
  readonly plannedMin: number | null;
  /** Weather must hold for so long from the start, contingency included; null: not planned. */
  readonly referenceMin: number | null;
  /** Miles lost to the job's handling; null: not planned. */
  readonly lostNm: number | null;
}

/** The strictest of the limits of a job's steps; null: no step has it. */
export interface PictureLimits {
  readonly deckWindKn: LimitLevels | null;
  readonly deckGustNoGoKn: number | null;
  readonly seaHeightM: LimitLevels | null;
  readonly rain: 'none' | 'any';
  readonly airLeastC: number | null;
}

export interface LimitLevels {
  readonly ideal: number;
  readonly caution: number;
  readonly noGo: number;
}

/** Start times from which a job stays inside its known limits with the wanted probability. */
export interface StartSpan {
  readonly firstStartEpochMs: number;
  readonly lastStartEpochMs: number;
  /** A limit is unknown there. */
  readonly conditional: boolean;
}

export interface DefaultSetting {
  readonly name: string;
  readonly text: string;
}
