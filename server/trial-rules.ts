/** What a trial may be begun from, when it is not of now any more, and when it may be taken. */
import { failed, ok, type Problem, type Result } from '../lib/result/index.ts';
import { isSameVersion } from './documents/index.ts';
import type { PlannedOf, PlanText } from './keep-log.ts';
import type { PlanKeeper } from './keep-plan.ts';
import { stopped } from './plan-run.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import { epochOf } from './presenters/time-texts.ts';
import {
  isTriedPlanned,
  type Outdated,
  type Trial,
  type TrialState,
  type TriedStart,
} from './presenters/trial-standing.ts';
import {
  jobNotPlanned,
  noPlanToTryIn,
  notFinished,
  outdatedProblem,
  planInTheMaking,
  planOfEarlierState,
} from './trial-problems.ts';

/** What there is now. */
export interface Now {
  /** The passage as it is now with its log, or why there is none. */
  readonly passageText: () => Result<PlanText>;
  readonly plans: Pick<PlanKeeper, 'planStanding' | 'plannedDocument'>;
  readonly nowEpochMs: () => number;
}

/** What a trial is begun from. */
export interface From {
  readonly text: PlanText;
  readonly view: PassageView;
}

/** The plan that stands, of the passage and log as they are now. */
export function beginningFrom({ plans, passageText }: Now): Result<From> {
  const text = passageText();
  if (!text.ok) return text;
  const standing = plans.planStanding();
  if (standing.kind !== 'ready') return failed(noPlanToTryIn);
  if (standing.making !== undefined) return failed(planInTheMaking);
  return isOfText(plans.plannedDocument(), text.value)
    ? ok({ text: text.value, view: standing.view })
    : failed(planOfEarlierState);
}

const isOfText = (of: PlannedOf | null, text: PlannedOf): boolean =>
  of !== null && isSameVersion(of, text) && of.logNumber === text.logNumber;

/** How a trial stands once its plan has been made, or none. */
export function stateOf(result: Result<PassageView>): TrialState {
  if (result.ok) return { kind: 'ready', view: result.value };
  const { problems } = result;
  return isStop(problems) ? { kind: 'stopped' } : { kind: 'failed', problems };
}

const isStop = (problems: readonly Problem[]): boolean => problems.every(({ code }) => code === stopped.code);

/** What a trial was made of, from which plan, and for which start. */
interface MadeTrial {
  readonly of: PlannedOf;
  readonly before: PassageView;
  readonly tried: TriedStart;
}

/** Why it is not of now any more; null: it is. */
export function outdatedBy({ of, before, tried }: MadeTrial, { passageText, plans, nowEpochMs }: Now): Outdated | null {
  const text = passageText();
  if (!text.ok || !isSameVersion(of, text.value)) return 'passage';
  if (of.logNumber !== text.value.logNumber) return 'log';
  const standing = plans.planStanding();
  if (standing.kind !== 'ready' || standing.view !== before) return 'plan';
  return hasPassed(tried.startUtc, before, nowEpochMs()) ? 'start-passed' : null;
}

/** Never where the clock of the passage is held. */
export const hasPassed = (utc: string, { picture }: PassageView, nowEpochMs: number): boolean =>
  picture.clock !== 'fixed' && epochOf(utc) < nowEpochMs;

/** The plan of a trial that may be taken. */
export function takable({ state, outdated, tried }: Trial): Result<PassageView> {
  if (state.kind !== 'ready') return failed(notFinished);
  if (outdated !== null) return failed(outdatedProblem(outdated));
  return isTriedPlanned(state.view, tried) ? ok(state.view) : failed(jobNotPlanned(tried.jobName));
}
