import type { Handling } from '../boat/index.ts';
import type { Block, Job } from '../jobs/index.ts';
import type { PlanOrders } from '../passage/index.ts';
import type { Gate, Homeostasis, Watchkeeper } from '../person/index.ts';
import type { WaitSlots } from '../schedule/index.ts';
import type { SlotGrid } from '../time/index.ts';
import type { LagTable } from '../voyage/index.ts';
import type { BlockTable, TableSettings } from '../windows/index.ts';

/** A block of a job as the planner places it. */
export interface Unit {
  readonly index: number;
  readonly job: Job;
  readonly block: Block;
  /** Units that must be finished, and for how many slots, before this one starts. */
  readonly predecessors: readonly { readonly unit: number; readonly waitSlots: WaitSlots }[];
  /** Background wait after it, by the slot it begins where it goes by the air. */
  readonly waitSlots: WaitSlots;
  /** Minutes at pace 1 of all its work. */
  readonly totalWorkMin: number;
  /** Sail states it may be worked in; empty: any. */
  readonly sailStates: readonly string[];
  /** Handlings it may be worked under, preferred first. */
  readonly handlings: readonly Handling[];
  readonly gate: Gate;
}

/** Sleep and body clock on the nominal voyage. */
export interface PersonFacts {
  readonly watchkeeper: Watchkeeper;
  /** C + U per slot. */
  readonly rhythm: Float64Array;
  /** κ·C of the unified model per slot [lapses]. */
  readonly lapsesRhythm: Float64Array;
  /** Body-clock hour per slot. */
  readonly todH: Float64Array;
  readonly longestSleepSlots: number;
}

/** Everything a solver needs; facts only, they never know the solver. */
export interface PlanningProblem {
  readonly grid: SlotGrid;
  readonly fromSlot: number;
  /** Every entry ends by this slot; the forecast may go on, for fallbacks. */
  readonly untilSlot: number;
  /** Slots of day or civil twilight before slot i, on the nominal voyage. */
  readonly lightBefore: Int32Array;
  /** In the order of the list. */
  readonly jobs: readonly Job[];
  readonly units: readonly Unit[];
  readonly startSailStateId: string;
  readonly start: PersonAtSlot;
  readonly person: PersonFacts;
  readonly weights: Int32Array;
  readonly neededWeight: number;
  /** Weight of one step of probability tolerance. */
  readonly toleranceWeight: number;
  readonly lag: LagTable;
  readonly settings: TableSettings;
  /** What the user has fixed. */
  readonly orders: PlanOrders;
  /** How the unit fares from every start slot. */
  tableFor(unit: Unit, work: UnitWork): BlockTable;
  /** The same table, judged at least at one start slot. */
  startFor(unit: Unit, work: UnitWork, startSlot: number): BlockTable;
}

/** How much of a unit is worked, how, and by whom in what state. */
export interface UnitWork {
  readonly handling: Handling;
  readonly sailStateId: string;
  readonly workMin: number;
  readonly resumeMin: number;
  readonly tiredRatio: number;
  readonly lagNm: number;
}

/** One sleep, in slots, half-open. */
export interface SlotSleep {
  readonly fromSlot: number;
  readonly toSlot: number;
}

/** The person at the start of a slot, awake. */
export interface PersonAtSlot extends Homeostasis {
  readonly slot: number;
  readonly awakeSinceSlot: number;
  readonly lastSleepMin: number;
  readonly wokeTodH: number;
  /** Sleeps so far, latest first; slots before the plan are negative. */
  readonly sleeps: SleepList | null;
}

export interface SleepList {
  readonly sleep: SlotSleep;
  readonly earlier: SleepList | null;
}
