import type { Result } from '../../lib/result/index.ts';
import type { PassageView } from '../../server/deps.ts';
import { lookAnswer, windowsAnswer } from './fixture-windows.ts';
import type { PlanBeginning, PlanRun, StartPlan } from '../../server/plan-run.ts';

/** A planner that does what it is told, and answers about the fixture's windows. */
export const runOf =
  (make: (beginning: PlanBeginning) => Promise<Result<PassageView>>, rest: Partial<PlanRun> = {}): StartPlan =>
  (beginning) => ({
    finished: make(beginning),
    ask: (question) =>
      Promise.resolve({
        ok: true,
        value: question.kind === 'windows' ? windowsAnswer(question) : lookAnswer(question),
      }),
    stop: () => undefined,
    close: () => undefined,
    ...rest,
  });
