import { ok, type Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { lookAnswer, windowsAnswer } from './fixture-windows.ts';
import type { PlanBeginning, PlanRun, StartPlan } from '../../server/plan-run.ts';
import type { PlanningAnswer, PlanningQuestion } from '../../server/planning-messages.ts';
import { digestAnswer } from './fixture-digest.ts';

/** A planner that does what it is told, and answers about the fixture's windows. */
export const runOf =
  (make: (beginning: PlanBeginning) => Promise<Result<PassageView>>, rest: Partial<PlanRun> = {}): StartPlan =>
  (beginning) => ({
    finished: make(beginning),
    ask: (question) => Promise.resolve(answerTo(question)),
    stop: () => undefined,
    close: () => undefined,
    ...rest,
  });

/** What the fixture's planner answers. */
export function answerTo(question: PlanningQuestion): Result<PlanningAnswer> {
  if (question.kind === 'digest') return digestAnswer(question);
  return ok(question.kind === 'windows' ? windowsAnswer(question) : lookAnswer(question));
}
