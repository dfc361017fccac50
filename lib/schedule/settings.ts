import type { ScheduleEntry, ScheduleSolution } from './solution.ts';

/** How long to search. Two runs with the same settings agree: budgets count, they never look at a clock. */
export interface ScheduleSettings {
  /** Labels kept per instant, pass after pass; Infinity in the last: complete. */
  readonly beamWidths: readonly number[];
  /** Extensions (successors looked at) over all passes; when they are spent the best plan so far is the answer. */
  readonly extensionBudget: number;
  /** A known plan to start from; one that breaks a rule is left aside. */
  readonly incumbent?: readonly ScheduleEntry[];
  /** Ends the search when its first passes find no plan with every unconditional job that can be started: it is then left to another. */
  readonly onlyWhole?: boolean;
  /** A good plan soon, with no proof on the cost: for plans that stand beside another. */
  readonly isAdvice?: boolean;
  /** Called with each plan better than those before it, the first one soon after the start. */
  readonly onPlan?: (found: Pick<ScheduleSolution, 'entries' | 'worth'>) => void;
  /** Called now and then with the share of the budget spent; true from `isCancelled` ends the search with the best so far. */
  readonly onProgress?: (spentShare: number) => void;
  readonly isCancelled?: () => boolean;
}

/** Narrow first, for a plan at once; then wider, the last without limit, for the proof. */
export const DEFAULT_SCHEDULE_SETTINGS: ScheduleSettings = {
  beamWidths: [40, 300, 1500, Infinity],
  extensionBudget: 12_000_000,
};
