import type { Access } from './access/index.ts';
import type { Documents } from './documents/index.ts';
import type { PassageArchives } from './keep-archives.ts';
import type { ForecastKeeper } from './keep-forecasts.ts';
import type { NewEntry, PassageLog, WrittenEntry } from './keep-log.ts';
import type { MessageKeeper } from './keep-messages.ts';
import type { PlanHistory } from './keep-plans.ts';
import type { PlanKeeper } from './keep-plan.ts';
import type { TrialKeeper } from './keep-trial.ts';
import type { Result } from '../lib/result/index.ts';

export type { PassageView, PlanStanding } from './presenters/plan-standing.ts';

/** Everything the pages are given; nothing else reaches them. `planStanding` never waits for a plan. */
export interface Deps
  extends
    Omit<PlanKeeper, 'close' | 'makePlan' | 'renewPlan' | 'takePlan'>,
    Omit<Documents, 'followFile'>,
    PassageLog,
    PlanHistory,
    TrialKeeper,
    ForecastKeeper,
    PassageArchives,
    MessageKeeper {
  /** Makes the plan anew, of the file where nobody has edited the passage; does nothing while one is in the making. */
  readonly makePlan: () => Promise<void>;
  /** Writes several entries, one after the other, and then has the plan made once. Those before one that fails stay. */
  readonly writeLogEntries: (entries: readonly NewEntry[]) => Promise<Result<readonly WrittenEntry[]>>;
  readonly nowEpochMs: () => number;
  /** A clock that is never set [ms]. */
  readonly uptimeMs: () => number;
  /** Asks for the access key; null: anyone who can reach the server may read and write. */
  readonly access: Access | null;
  /** A new hidden text for a form, its own. */
  readonly formToken: () => string;
  /** `Host` headers answered. */
  readonly allowedHosts: () => readonly string[];
  /** Takes an error that is our own mistake; the page shows none of it. */
  readonly report: (error: unknown) => void;
}
