/**
 * One worker, tasks in windows, slots of time: everything the search looks at, as numbers.
 *
 * Slots are numbered from 0 to `slotCount`; an instant t is the beginning of slot t. The worker does one thing at a time:
 * works, sleeps or waits. The boat is some whole number of quanta (a fixed distance) behind her nominal course: the lag.
 */
export interface ScheduleProblem {
  /** Every entry ends by this instant. */
  readonly slotCount: number;
  /** Lags are 0 … lagCount − 1; a greater one is served by the last, a lower one by 0. */
  readonly lagCount: number;
  /** Row of the choice tables that serves a lag; `lagCount` entries. */
  readonly rowOfLag: Int32Array;
  readonly rowCount: number;
  /** Whole weights of the scenarios, each above 0; their sum is below 2³⁰. */
  readonly weights: Int32Array;
  /** Joint weight the unconditional jobs of a plan must keep; at least 1. */
  readonly neededWeight: number;
  /** Joint weight counts in whole steps of this; at least 1. */
  readonly stepWeight: number;
  readonly tasks: readonly Task[];
  readonly jobs: readonly ScheduleJob[];
  readonly configs: Configs;
  /** null: the worker never tires and never sleeps. */
  readonly rest: RestModel | null;
  /** Cost of falling one quantum behind; charged when it happens, given back when it is gained. */
  readonly costPerQuantum: number;
  /** Cost of ending the plan at an instant in a config: `[config * (slotCount + 1) + t]`; null: none. */
  readonly endCostPoints: Int32Array | null;
}

/** Tasks that count together: done when every one of them is. */
export interface ScheduleJob {
  readonly tasks: readonly number[];
  readonly priorityWeight: number;
  /** A conditional job never narrows the joint set of scenarios and counts on a level of its own. */
  readonly conditional: boolean;
}

/** How the boat is set up (sails set, handling just used): what decides which choice may follow and how long the change takes. */
export interface Configs {
  readonly count: number;
  readonly start: number;
  /** Config after a slot of waiting or a sleep begun in this one; `count` entries. */
  readonly afterWait: Int32Array;
  /** Quanta fallen behind by instant t when waiting or asleep in a config, summed from instant 0: `[config * (slotCount + 1) + t]`. */
  readonly waitQuanta: Int32Array;
}

/**
 * Slots of a wait: always the same, or by the instant it begins (`slotCount + 1` values). Who begins later is never ready
 * earlier; a wait that is never over ends beyond `slotCount`.
 */
export type WaitSlots = number | Int32Array;

export interface Task {
  /** 1: worked whole. More: worked in sessions of some units. */
  readonly unitCount: number;
  /** Finished, and for so many slots, before this one starts. */
  readonly after: readonly { readonly task: number; readonly waitSlots: WaitSlots }[];
  readonly choices: readonly Choice[];
  /** Slots between a session that leaves units over and the next of the same task; left out: none. */
  readonly restSlots?: number;
  /** Tasks that do not start for so many slots after this one is finished (a tool is held); they may come before it. */
  readonly holds?: readonly { readonly task: number; readonly slots: WaitSlots }[];
  /** Cost of finishing the task at an instant: `slotCount + 1` values; null: none. */
  readonly finishCostPoints: Int32Array | null;
}

/** One way to work a task, or some units of it, in one go. */
export interface Choice {
  readonly unitCount: number;
  /** Only to finish the task: when exactly so many units are left. */
  readonly onlyToFinish: boolean;
  /** Slots of change before the work begins, by config; −1: not from that config. */
  readonly changeSlots: Int16Array;
  /** Config when the work is over and units are left, and when the task is finished. */
  readonly configAfter: number;
  readonly configFinished: number;
  readonly gate: ChoiceGate | null;
  readonly table: ChoiceTable;
}

/** What the worker must be, when the work begins (after the change) and when it ends. */
export interface ChoiceGate {
  /** Alertness (S + rhythm) at the beginning and at the end. */
  readonly leastStartPoints: number;
  readonly leastEndPoints: number;
  /** Slots since waking at the end; Infinity: no matter. */
  readonly longestAwakeSlots: number;
  /** Row of `RestModel.inertiaSlots`; −1: none. Work does not begin before so many slots awake. */
  readonly inertiaClass: number;
}

/** By the instant the work begins and the row of the lag at that instant: `[row * slotCount + t]`. */
export interface ChoiceTable {
  /** 0: refused there. */
  readonly durationSlots: Uint16Array;
  readonly costPoints: Int32Array;
  /** Quanta fallen behind (below 0: gained) from the beginning to the end of the work. */
  readonly lossQuanta: Int16Array;
  /** Scenarios in which it stays inside its limits, one array for each 32 scenarios: bit w & 31 of word w >> 5. */
  readonly masks: readonly Int32Array[];
}

/** Sleep and alertness. Both functions never fall as `s` rises. */
export interface RestModel {
  readonly startS: number;
  /** Slot of the last waking (below 0: before the plan), and the instant from which each inertia class is over. */
  readonly startWokeSlot: number;
  readonly startClearSlots: Int32Array;
  awakeS(s: number, slots: number): number;
  asleepS(s: number, slots: number): number;
  /** Alertness = S + rhythm; `slotCount + 1` values. */
  readonly rhythmPoints: Float64Array;
  /** Lengths a sleep may have. */
  readonly sleepSlots: readonly number[];
  /** Awake and looking round after each sleep. */
  readonly lookoutSlots: number;
  /** 1 where the worker may be asleep; `slotCount` values. */
  readonly sleepAllowed: Uint8Array;
  /** Cost of being asleep in a slot; `slotCount` values, none negative. */
  readonly sleepCostPoints: Int32Array;
  /** A plan ends at an instant with at least this S. */
  readonly leastEndS: number;
  /** Slots awake before work of a class, by sleep length (index) and waking instant: `[class][index * (slotCount + 1) + wokeSlot]`. */
  readonly inertiaSlots: readonly Int16Array[];
  /**
   * A rule on the sleeps so far that no number of the state holds; true: the work may not begin. It must never refuse
   * because of more sleep. Plans it cuts off count as dropped, so that a proof stays a proof.
   */
  readonly refusesHistory: ((choice: Choice, work: WorkSpan, sleeps: readonly SlotSleep[]) => boolean) | null;
}

/** Instants at which a piece of work begins and ends. */
export interface WorkSpan {
  readonly beginSlot: number;
  readonly endSlot: number;
}

/** Asleep in [fromSlot, toSlot). */
export interface SlotSleep {
  readonly fromSlot: number;
  readonly toSlot: number;
}
