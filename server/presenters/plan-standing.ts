import type { FoundSoFar, Plan, PlanPicture } from '../../lib/planner/index.ts';
import type { Problem } from '../../lib/result/index.ts';
import type { ShownNames } from './shown-names.ts';

/** A plan and the hours it lies in. */
export interface PassageView {
  readonly plan: Plan;
  readonly picture: PlanPicture;
  readonly names: ShownNames;
  /** The plan that stood when this one was made; null: none did. */
  readonly before: Plan | null;
  /** The search was stopped: this is the best plan found until then. */
  readonly isStoppedEarly: boolean;
}

/** Where the plan of the passage stands. */
export type PlanStanding =
  | PlanInTheMaking
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] }
  | PlanReady;

export interface PlanReady {
  readonly kind: 'ready';
  readonly view: PassageView;
  /** Why it could not be made again; absent: it could, or nobody asked. */
  readonly notRenewed?: readonly Problem[];
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
