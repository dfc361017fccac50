import type { Problem } from '../../lib/result/index.ts';
import type { PassageView, PlanInTheMaking } from './plan-standing.ts';

/** The start a trial was begun for. */
export interface TriedStart {
  readonly jobId: string;
  readonly jobName: string;
  /** Part looked at, counted from 0, and its handling: where the start was chosen. */
  readonly partIndex: number;
  readonly shownHandlingId: string;
  readonly startUtc: string;
}

/** Where a trial plan stands. */
export type TrialState =
  | PlanInTheMaking
  | { readonly kind: 'stopped' }
  | { readonly kind: 'failed'; readonly problems: readonly Problem[] }
  | { readonly kind: 'ready'; readonly view: PassageView };

/** Why a trial is not of now any more: another passage or version, a longer log, another plan, or its start has passed. */
export type Outdated = 'passage' | 'log' | 'plan' | 'start-passed';

/** A plan with one start fixed, made beside the plan that stands; nothing of it is saved. */
export interface Trial {
  /** Its own since the program was started. */
  readonly number: number;
  readonly tried: TriedStart;
  /** The plan it was begun from. */
  readonly before: PassageView;
  readonly state: TrialState;
  /** null: it is of the passage, log and plan as they are now. */
  readonly outdated: Outdated | null;
}

/** The job whose start is tried is in the plan of the trial. */
export const isTriedPlanned = ({ plan }: PassageView, { jobId }: TriedStart): boolean =>
  plan.jobs.some((job) => job.jobId === jobId && (job.status === 'planned' || job.status === 'conditional'));
