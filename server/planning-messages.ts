import type { NumberedEntry } from '../lib/log/index.ts';
import type { Digest } from '../lib/message/index.ts';
import type { AskedBlock, FoundSoFar, Plan, StartLook, WindowsPicture } from '../lib/planner/index.ts';
import type { Result } from '../lib/result/index.ts';
import type { SlotGrid } from '../lib/time/index.ts';
import type { JobWindows } from '../lib/windows/index.ts';
import type { PlanOfWork } from './keep-plans.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import type { PassageText } from './stores/passage-files.ts';

/** What the process that makes a plan is started with. */
export interface PlanningTask {
  readonly passage: PassageText;
  /** What was written in its log, in the order it was written. */
  readonly log: readonly NumberedEntry[];
  readonly plans: readonly PlanOfWork[];
  /** Of the live clock; used unless the passage holds a fixed one. */
  readonly nowEpochMs: number;
  /** The plan shown, kept unless a better one is found; null: there is none. */
  readonly standing: Plan | null;
}

/** What the process that answers is started with: the task of the plan, and what it was made from. */
export interface AnsweringTask extends PlanningTask {
  /** As `printOf`. */
  readonly madeFrom: string;
}

/** Asked of it once the plan is made. */
export type PlanningQuestion =
  | ({ readonly kind: 'windows' } & AskedBlock)
  | ({ readonly kind: 'look'; readonly startEpochMs: number } & AskedBlock)
  | ({ readonly kind: 'digest' } & AskedDigest);

/** The weather ahead of the boat, from the forecast the plan was made of. */
export interface AskedDigest {
  readonly nowEpochMs: number;
  readonly aheadH: number;
  /** Characters the packed digest may take. */
  readonly mostCharacterCount: number;
}

/** A question with a number of its own; each is answered once. */
export interface NumberedQuestion {
  readonly questionNumber: number;
  readonly question: PlanningQuestion;
}

/** All windows of a job, and the hours of one block of it under one handling. */
export interface WindowsAnswer {
  readonly kind: 'windows';
  readonly picture: WindowsPicture;
  readonly windows: JobWindows;
  /** The grid the slots of the windows are counted on. */
  readonly grid: SlotGrid;
}

export interface LookAnswer {
  readonly kind: 'look';
  readonly look: StartLook;
}

export interface DigestAnswer {
  readonly kind: 'digest';
  readonly digest: Digest;
}

export type PlanningAnswer = WindowsAnswer | LookAnswer | DigestAnswer;

/**
 * What the processes say: how much of the forecast is read, then how much of which search is done (0 to 1; one that asks for
 * more certainty may follow another), the best plan found so far, the plan or why there is none, and after that answers.
 */
export type PlanningMessage =
  | { readonly readShare: number }
  | { readonly searchNumber: number; readonly searchShare: number }
  | { readonly found: FoundSoFar }
  | { readonly result: Result<PassageView> }
  | { readonly questionNumber: number; readonly answer: Result<PlanningAnswer> }
  /** Our own mistake while answering. */
  | { readonly questionNumber: number; readonly mistake: string };

/** What the process that makes the plan says besides: just before the plan, as `printOf`; a mistake of ours in its place. */
export type MakingMessage = PlanningMessage | { readonly madeFrom: string } | { readonly mistake: string };

/** Asks a plan a question; rejects on a mistake of ours. */
export type AskPlan = (question: PlanningQuestion) => Promise<Result<PlanningAnswer>>;
