/** A plan as the search finds it, with what is proven about it. */
export interface ScheduleSolution {
  /** Work and sleep in order of time; waiting is what lies between. Empty: nothing can be done. */
  readonly entries: readonly ScheduleEntry[];
  readonly worth: ScheduleWorth;
  /** No plan is better than this: priority and joint weights from above, cost from below, each given the levels before it. */
  readonly bound: ScheduleWorth;
  /** Worth equals bound on every level, and on the first two. */
  readonly proven: boolean;
  readonly provenProbability: boolean;
  /** The search was to find a plan with every job only, and was left off when none came up. */
  readonly isLeftOff: boolean;
  /** Scenarios in which all unconditional jobs hold, 32 to a word. */
  readonly mask: Int32Array;
  readonly labelCount: number;
  readonly extensionCount: number;
  /** Octets of the largest pass: labels, heads and tables. */
  readonly peakOctetCount: number;
}

/**
 * Compared level by level: priority weight of unconditional jobs done (0 unless they keep the needed weight together),
 * joint weight in whole steps, priority weight of conditional jobs done, cost.
 */
export interface ScheduleWorth {
  readonly priorityWeight: number;
  /** Summed weight of the scenarios left. Two plans in the same step are equal on this level. */
  readonly jointWeight: number;
  readonly conditionalWeight: number;
  readonly costPoints: number;
}

export type ScheduleEntry = WorkEntry | SleepEntry;

export interface WorkEntry {
  readonly kind: 'work';
  readonly task: number;
  /** Index into the task's choices. */
  readonly choice: number;
  /** The change begins, the work begins, the work ends. */
  readonly startSlot: number;
  readonly beginSlot: number;
  readonly endSlot: number;
  /** Lag when the work begins. */
  readonly lag: number;
  readonly finishes: boolean;
}

export interface SleepEntry {
  readonly kind: 'sleep';
  readonly startSlot: number;
  /** Awake again. */
  readonly wokeSlot: number;
  /** The look round is over. */
  readonly endSlot: number;
}
