import type { Documents } from './documents/index.ts';
import type { PlanKeeper } from './keep-plan.ts';

export type { PassageView, PlanStanding } from './presenters/plan-standing.ts';

/** Everything the pages are given; nothing else reaches them. `planStanding` never waits for a plan. */
export interface Deps extends Omit<PlanKeeper, 'close' | 'makePlan' | 'renewPlan'>, Omit<Documents, 'followFile'> {
  /** Makes the plan anew, of the file where nobody has edited the passage; does nothing while one is in the making. */
  readonly makePlan: () => Promise<void>;
  readonly nowEpochMs: () => number;
  /** `Host` headers answered. */
  readonly allowedHosts: () => readonly string[];
  /** Takes an error that is our own mistake; the page shows none of it. */
  readonly report: (error: unknown) => void;
}
