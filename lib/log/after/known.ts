import type { EffectiveEntry } from '../effective.ts';
import type { JobState } from '../job-state.ts';
import type { LogNote } from '../log-note.ts';

/** What the log says at one instant, for the parts of a passage that follow from it. */
export interface Known {
  /** Corrections applied, in order of time, none later than now. */
  readonly effective: readonly EffectiveEntry[];
  readonly states: readonly JobState[];
  readonly nowEpochMs: number;
  /** Air on deck [°C] where the log has none; NaN: not known. */
  readonly airCAt: (epochMs: number) => number;
}

/** A part of the passage as it is after the log, and what there is to say about it. */
export interface Noted<T> {
  readonly value: T;
  readonly notes: readonly LogNote[];
}
