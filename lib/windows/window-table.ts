import type { Handling } from '../boat/index.ts';
import type { Block } from '../jobs/index.ts';
import type { Gloves, TimeFactorSettings } from '../person/index.ts';

/** A block of a job worked under a handling in one set of conditions. */
export interface BlockWork {
  readonly block: Block;
  readonly handling: Handling;
  /** What is set while it is worked. */
  readonly sailStateId: string;
  /** Minutes of work at pace 1 to be done in one go; for a block that is no session, all of it. */
  readonly workMin: number;
  /** Fixed minutes before the work of a session (getting it out again). */
  readonly resumeMin: number;
  /** Time factor of tiredness, >= 1. */
  readonly tiredRatio: number;
}

export interface TableSettings {
  readonly weights: Int32Array;
  readonly baseEpochMs: number;
  readonly limitRatio: number;
  readonly contingencyShare: number;
  readonly contingencyLeastMin: number;
  readonly steadyingWindRule: boolean;
  /** The watchkeeper's own pace at a step: times as long as the times given. */
  readonly ownPaceRatioOf: (jobId: string, stepId: string) => number;
  readonly gloves: Gloves;
  /** Coefficients of cold, heat and tiredness. */
  readonly timeFactors: TimeFactorSettings;
  readonly lookout: LookoutSettings;
}

/** What the look-out interval is reckoned with besides light and visibility. */
export interface LookoutSettings {
  readonly eyeHeightM: number;
  /** A ship met head-on. */
  readonly otherShipKn: number;
  /** Never longer than this. */
  readonly longestMin: number;
}

/** Slot instants, both included. */
export interface SlotSpan {
  readonly fromSlot: number;
  readonly toSlot: number;
}

/** For every start slot: how long the block takes there, and in which scenarios it stays inside every known limit. */
export interface BlockTable {
  /** Planned minutes when started here; NaN: refused (slowed more than threefold, or past the horizon). */
  readonly plannedMin: Float32Array;
  /** Slots the weather must hold for, planned + contingency rounded up. */
  readonly referenceSlots: Int32Array;
  /** Scenarios in which it does: `wordCount` words per slot. */
  readonly masks: Uint32Array;
  readonly wordCount: number;
  /** Summed weight of those scenarios. */
  readonly weight: Int32Array;
  /** Bits (LIMIT_IDS order) of limits unknown somewhere in the reference period. */
  readonly unknownBits: Uint32Array;
  /** Slots each step must hold, from this start: `[slot][step]`; empty where refused. */
  readonly spans: (readonly SlotSpan[])[];
}
