/** The process that answers for a plan that is made; the system may end it, as when memory runs out. */
import type { ChildProcess } from 'node:child_process';
import { failed, type Result } from '../lib/result/index.ts';
import type { NumberedQuestion, PlanningAnswer, PlanningMessage } from './planning-messages.ts';

export interface Answering {
  /** Each question is answered once, whatever becomes of the process. */
  readonly ask: (question: NumberedQuestion) => void;
  /**
   * For good: what is still open is answered no more, and nothing may be asked any longer.
   *
   * @returns the process that is to be ended; null: there is none
   */
  readonly close: () => ChildProcess | null;
}

/**
 * Begins it at once. Where it ends unasked, the open questions are answered with `plan.answering-ended`, and the next one
 * begins it anew: not before, for a machine without memory has none a moment later either.
 *
 * @param begin starts it; it prepares itself, and answers then what was asked meanwhile
 * @param say takes its answers
 */
export function answering(begin: () => ChildProcess, say: (message: PlanningMessage) => void): Answering {
  const open = new Set<number>();
  let child: ChildProcess | null = null;

  const begun = (): ChildProcess => {
    const started = begin();
    started.on('message', (message: PlanningMessage) => {
      if ('questionNumber' in message) open.delete(message.questionNumber);
      say(message);
    });
    const over = (how: string): void => {
      if (child !== started) return;
      child = null;
      const numbers = [...open];
      open.clear();
      for (const questionNumber of numbers) say({ questionNumber, answer: endedUnasked(how) });
    };
    started.on('error', (error) => over(error.message));
    started.on('exit', (code, signal) => over(signal ?? `code ${code}`));
    return started;
  };

  child = begun();
  return {
    ask: (question) => {
      open.add(question.questionNumber);
      child ??= begun();
      // What was sent to a process that has just ended is answered when its end is told.
      child.send(question, () => undefined);
    },
    close: () => {
      const last = child;
      child = null;
      return last;
    },
  };
}

const endedUnasked = (how: string): Result<PlanningAnswer> =>
  failed({
    code: 'plan.answering-ended',
    where: 'the planner',
    what: `The program that looks into the plan was ended from outside (${how}); perhaps this machine ran out of memory.`,
    expected: 'an answer',
    remedy: 'Load the page again: it is begun anew. The plan itself is whole.',
  });
