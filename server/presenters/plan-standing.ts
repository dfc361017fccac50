import type { FoundSoFar, Plan, PlanPicture } from '../../lib/planner/index.ts';
import type { PaceByWork } from '../../lib/person/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { ForecastSummary } from './forecast-summary.ts';
import type { SailedWay } from './map/sailed-way.ts';
import type { ShownNames } from './shown-names.ts';

/** A plan and the hours it lies in. */
export interface PassageView {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  readonly names: ShownNames;
  /** What the forecast holds it was made of; absent: the plan was kept from before, and its forecast not read again. */
  readonly forecast?: ForecastSummary;
  /** Track, place now and runs before the wind; absent: the way of the plan is all that is known. */
  readonly way?: SailedWay;
  /** The plan that stood when this one was made; null: none did. */
  readonly before: Plan | null;
  /** The search was stopped: this is the best plan found until then. */
  readonly isStoppedEarly: boolean;
  /** What was taken from the log; absent: it was empty. */
  readonly fromLog?: FromLog;
}

/** What the log told the planner, in sentences. */
export interface FromLog {
  /** Own pace by kind of work the plan was made with. */
  readonly paceByWork: PaceByWork;
  readonly usualPaceRatio: number;
  /** Where she is, what is set, what is done and under way, what is odd. */
  readonly notes: readonly string[];
  /** The forecast against what was seen. */
  readonly match: readonly string[];
  /** The watchkeeper's own pace. */
  readonly pace: readonly string[];
}

/** Where the plan of the passage stands. */
export type PlanStanding = NoPlan | PlanReady;

export type NoPlan =
  | PlanInTheMaking
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] };

export interface PlanReady {
  readonly kind: 'ready';
  readonly view: PassageView;
  /** Why it could not be kept, and so has no number; absent: it was. */
  readonly notKept?: readonly Problem[];
  /** A new one is being made; absent: none is. */
  readonly making?: PlanInTheMaking;
  /** Why it could not be made again; absent: it could, or nobody asked. */
  readonly notRenewed?: readonly Problem[];
  /** It was kept from before this start, and nobody can be asked about it: where the one stands that can; absent: it can. */
  readonly unasked?: NoPlan;
}

export interface PlanInTheMaking {
  readonly kind: 'planning';
  readonly sinceEpochMs: number;
  /** How much of the forecast is read, 0 to 1. */
  readonly readShare?: number;
  /** How much of the search is done, 0 to 1. */
  readonly searchShare?: number;
  /** 1 for the first search; one that asks for more certainty may follow another. */
  readonly searchNumber?: number;
  /** The best plan found so far. */
  readonly found?: FoundSoFar;
  /** A stop was asked for and not yet heard. */
  readonly isStopping?: boolean;
}
