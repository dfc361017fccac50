import type { NumberedEntry } from '../lib/log/index.ts';
import type { PlanOfWork } from './keep-plans.ts';
import type { FoundSoFar, Plan } from '../lib/planner/index.ts';
import { failed, type Problem, type Result } from '../lib/result/index.ts';
import { deferred } from './deferred.ts';
import type { DocumentText } from './documents/index.ts';
import type { AskPlan, NumberedQuestion, PlanningAnswer, PlanningMessage } from './planning-messages.ts';
import { askedOnce } from './kept-answers.ts';
import type { PassageView } from './presenters/plan-standing.ts';

/** One making of a plan, and afterwards whoever can be asked about it. */
export interface PlanRun {
  readonly finished: Promise<Result<PassageView>>;
  /** Waits for the plan where there is none yet; rejects on a mistake of ours. */
  readonly ask: AskPlan;
  /** The plan is no longer wanted: `finished` soon holds the problem `plan.stopped`, or the best found so far. */
  readonly stop: () => void;
  /** Ends it; what is still open is answered with `plan.closed`. */
  readonly close: () => void;
}

/** How far a plan in the making is; shares from 0 to 1. */
export interface PlanProgress {
  readonly readShare?: number;
  readonly searchShare?: number;
  /** 1 for the first search. */
  readonly searchNumber?: number;
  /** The best plan found so far. */
  readonly found?: FoundSoFar;
}

/** What a plan is begun with. */
export interface PlanBeginning {
  readonly passage: DocumentText;
  /** The log of the passage, in the order it was written. */
  readonly log: readonly NumberedEntry[];
  /** Kept plans that hold the work of the log, for the watchkeeper's own pace. */
  readonly plans: readonly PlanOfWork[];
  readonly onProgress: (progress: PlanProgress) => void;
  /** The plan shown; null: there is none. */
  readonly standing: Plan | null;
}

export type StartPlan = (beginning: PlanBeginning) => PlanRun;

/** What is used of the processes behind a plan. */
export interface PlanningPort {
  readonly postMessage: (question: NumberedQuestion) => void;
  readonly terminate: () => Promise<unknown>;
  on(event: 'message', listener: (message: PlanningMessage) => void): unknown;
  on(event: 'error', listener: (error: unknown) => void): unknown;
  /** With the code, or the signal that ended it. */
  on(event: 'exit', listener: (exitCode: number | string) => void): unknown;
}

interface RunOptions {
  readonly port: PlanningPort;
  /** Tells them that the plan is no longer wanted. */
  readonly raiseStopFlag: () => void;
  readonly onProgress: (progress: PlanProgress) => void;
  /** What has not stopped by itself after so long is ended. */
  readonly stopGraceMs?: number;
}

/** Judging and writing up the best plan found took 9 s on a slow machine with much else to do. */
const STOP_GRACE_MS = 60_000;

export const stopped: Problem = {
  code: 'plan.stopped',
  where: 'the planner',
  what: 'The making of the plan was stopped before it was done.',
  expected: 'a plan',
  remedy: 'Make it again.',
};

const closed: Problem = {
  code: 'plan.closed',
  where: 'the planner',
  what: 'The plan that was asked about has been replaced, or the program is ending.',
  expected: 'the plan that stands',
  remedy: 'Load the page again.',
};

interface OpenQuestion {
  readonly settle: (answer: Result<PlanningAnswer>) => void;
  readonly fail: (error: Error) => void;
}

/** Speaks with them: progress, then the plan, then one answer for each question. */
export function planRun({ port, raiseStopFlag, onProgress, stopGraceMs = STOP_GRACE_MS }: RunOptions): PlanRun {
  const open = new Map<number, OpenQuestion>();
  let lastNumber = 0;
  let over: Result<PlanningAnswer> | Error | null = null;
  let grace: NodeJS.Timeout | undefined;
  const plan = deferred<Result<PassageView>>();

  const end = (why: Result<PlanningAnswer> | Error): void => {
    over ??= why;
    clearTimeout(grace);
    const questions = [...open.values()];
    open.clear();
    for (const { settle, fail } of questions)
      if (over instanceof Error) fail(over);
      else settle(over);
    if (over instanceof Error) plan.reject(over);
    else if (!over.ok) plan.resolve(over);
  };
  const endAll = (why: Problem): void => {
    end(failed(why));
    void port.terminate();
  };

  port.on('message', (message) => {
    if ('result' in message) {
      clearTimeout(grace);
      plan.resolve(message.result);
    } else if ('questionNumber' in message) {
      const question = open.get(message.questionNumber);
      open.delete(message.questionNumber);
      if ('answer' in message) question?.settle(message.answer);
      else question?.fail(new Error(message.mistake));
    } else onProgress(message);
  });
  port.on('error', (error) => end(error instanceof Error ? error : new Error(String(error))));
  port.on('exit', (how) =>
    end(new Error(`the planning process ended with ${typeof how === 'number' ? `code ${how}` : how}`)),
  );

  const ask = askedOnce((question) => {
    lastNumber += 1;
    const asked = deferred<Result<PlanningAnswer>>();
    open.set(lastNumber, { settle: asked.resolve, fail: asked.reject });
    port.postMessage({ questionNumber: lastNumber, question });
    return asked.promise;
  });

  return {
    finished: plan.promise,
    ask: (question) => {
      if (over instanceof Error) return Promise.reject(over);
      return over === null ? ask(question) : Promise.resolve(over);
    },
    stop: () => {
      raiseStopFlag();
      grace ??= setTimeout(() => endAll(stopped), stopGraceMs);
    },
    close: () => endAll(closed),
  };
}
