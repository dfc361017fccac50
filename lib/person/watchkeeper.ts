import type { UtcInterval } from '../time/index.ts';
import type { PaceByWork } from './work-kinds.ts';
import type { Gloves, TimeFactorSettings } from './time-factors.table.ts';

export interface Watchkeeper {
  /** Sleeps of at least the last 72 h, in order, not overlapping. */
  readonly sleeps: readonly UtcInterval[];
  readonly wantedSleepHPer24H: number;
  /** Usual sleep onset, hours after local solar midnight [0, 24). */
  readonly usualSleepSolarH: number;
  /** Share of time in the bunk that is sleep. */
  readonly sleepEfficiencyRatio: number;
  /** Own pace: 1 works at the library's times, 1.2 takes a fifth longer. */
  readonly paceRatio: number;
  /** Own pace by kind of work, in place of `paceRatio` where it is known; absent: of none. */
  readonly paceByWork?: PaceByWork;
  /** How far the body clock is behind local solar time at the start; negative: ahead of it. */
  readonly bodyClockLagMin: number;
  /** Gloves worn at work that lets them be worn. */
  readonly gloves: Gloves;
  /** Own gate lines; absent: the defaults. */
  readonly gates?: GateSettings;
  /** Coefficients of cold, gloves, heat and tiredness. */
  readonly timeFactors: TimeFactorSettings;
  /** Sleep in any 24 h below which the plan sounds the alarm. */
  readonly leastSleepHPer24H: number;
  /** For energy, and rest after heavy work. */
  readonly bodyKg: number;
}

/** Lines below which a step is not planned. */
export interface GateSettings {
  /** For heavy, aloft and overside work. */
  readonly hardLeastAlertnessPoints: number;
  /** For other work outside. */
  readonly deckLeastAlertnessPoints: number;
  /** Lapses of the unified model, at most: for heavy, aloft and overside work, and for other work outside. */
  readonly hardMostLapses: number;
  readonly deckMostLapses: number;
  /** For heavy, aloft and overside work. */
  readonly hardLongestAwakeH: number;
}
