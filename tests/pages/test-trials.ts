/** The keeper of trials over a real passage, with plans that are made when they are told to be. */
import type { Result } from '../../lib/result/index.ts';
import { type Deferred, deferred } from '../../server/deferred.ts';
import type { PassageView, PlanStanding } from '../../server/deps.ts';
import { planTextOf, type PlannedOf } from '../../server/keep-log.ts';
import type { TakenPlan } from '../../server/keep-plan.ts';
import { keepTrial, type TrialKeeper } from '../../server/keep-trial.ts';
import type { PlanBeginning } from '../../server/plan-run.ts';
import { picture } from './fixture-plan.ts';
import { answerTo } from './plan-runs.ts';
import type { TestDocuments } from './test-documents.ts';

export interface TestTrial {
  readonly beginning: PlanBeginning;
  readonly made: Deferred<Result<PassageView>>;
  closed: boolean;
  stopCount: number;
}

export interface TestTrials {
  readonly keeper: TrialKeeper & { readonly close: () => void };
  readonly runs: TestTrial[];
  readonly taken: TakenPlan[];
  readonly reported: unknown[];
  /** What the plan that stands was made of; null until told: of the passage as it is now. */
  of: PlannedOf | null;
  nowEpochMs: number;
}

interface Given {
  readonly kept: Pick<TestDocuments, 'documents' | 'log'>;
  readonly standing: () => PlanStanding;
  /** Told of what is asked of the plan that stands. */
  readonly pressed: string[];
}

export function testTrials({ kept, standing, pressed }: Given): TestTrials {
  const runs: TestTrial[] = [];
  const taken: TakenPlan[] = [];
  const reported: unknown[] = [];
  const passageText = (): ReturnType<typeof planTextOf> => planTextOf(kept.documents, kept.log);
  const ofNow = (): PlannedOf | null => {
    const text = passageText();
    return text.ok ? text.value : null;
  };
  const trials: TestTrials = {
    keeper: keepTrial({
      documents: kept.documents,
      passageText,
      plans: {
        planStanding: standing,
        plannedDocument: () => trials.of ?? ofNow(),
        takePlan: (plan) => {
          pressed.push('take');
          taken.push(plan);
        },
        makePlan: () => void pressed.push('make'),
        renewPlan: () => void pressed.push('renew'),
      },
      start: (beginning) => {
        const run: TestTrial = { beginning, made: deferred(), closed: false, stopCount: 0 };
        runs.push(run);
        return {
          finished: run.made.promise,
          ask: (question) => Promise.resolve(answerTo(question)),
          stop: () => (run.stopCount += 1),
          close: () => (run.closed = true),
        };
      },
      history: { plansOfWork: () => [] },
      nowEpochMs: () => trials.nowEpochMs,
      report: (error) => void reported.push(error),
    }),
    runs,
    taken,
    reported,
    of: null,
    nowEpochMs: picture.nowEpochMs,
  };
  return trials;
}
