import type { PassageFile } from '../lib/passage/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';
import type { Documents, DocumentText, DocumentVersion, PassageDocument } from './documents/index.ts';
import { isSameVersion } from './documents/index.ts';
import type { PlannedOf } from './keep-log.ts';
import { ownMistake, type PlanKeeper } from './keep-plan.ts';
import type { KeptPlans } from './keep-plans.ts';
import type { PlanRun, StartPlan } from './plan-run.ts';
import type { PassageView } from './presenters/plan-standing.ts';
import type { Trial, TrialState, TriedStart } from './presenters/trial-standing.ts';
import { nothingToTry, otherTrial, planOfEarlierState } from './trial-problems.ts';
import { beginningFrom, type From, hasPassed, type Now, outdatedBy, stateOf, takable } from './trial-rules.ts';

/** A start to try, and how the passage would be changed for it. */
export interface AskedTrial {
  /** The state of the passage the start was chosen in. */
  readonly expected: DocumentVersion;
  readonly tried: Omit<TriedStart, 'jobName'>;
  /** The order that is saved when the trial is taken. */
  readonly change: (file: PassageFile) => Result<PassageFile>;
}

/** One plan tried beside the one that stands. It is neither kept nor shown elsewhere until it is taken. */
export interface TrialKeeper {
  /** null: nothing is tried. */
  readonly trial: () => Trial | null;
  /**
   * Begins a trial from the plan that stands, in place of an earlier one; the one that is there where it is the same.
   *
   * @returns the trial, or every problem: no plan of the passage as it is now to begin from, `trial.nothing-to-try`, what is
   *   wrong with the passage as it would be, `store.version-conflict`
   */
  readonly beginTrial: (asked: AskedTrial) => Promise<Result<Trial>>;
  /** Stops its search: the best plan found so far is the trial's. */
  readonly stopTrial: (number: number) => void;
  /** Forgets it. */
  readonly leaveTrial: (number: number) => void;
  /**
   * Saves its start as one version of the passage, and its plan becomes the one that stands, with a number. Where that plan
   * would not be of what was saved, or work of it has begun meanwhile, the plan is made again from it.
   *
   * @returns the passage as it is then; or why not, and nothing was changed: `trial.gone`, `trial.not-finished`,
   *   `trial.job-not-planned`, `trial.outdated`, and those of `savePassage`
   */
  readonly takeTrial: (number: number) => Promise<Result<PassageDocument>>;
}

interface Options extends Now {
  readonly documents: Pick<Documents, 'draftPassage' | 'savePassage'>;
  readonly plans: Pick<PlanKeeper, 'planStanding' | 'plannedDocument' | 'takePlan' | 'makePlan' | 'renewPlan'>;
  readonly start: StartPlan;
  readonly history: Pick<KeptPlans, 'plansOfWork'>;
  readonly report: (error: unknown) => void;
}

interface Kept {
  readonly number: number;
  readonly tried: TriedStart;
  readonly change: AskedTrial['change'];
  /** What it was made of, and the text the change made of that. */
  readonly of: PlannedOf;
  readonly text: string;
  readonly before: PassageView;
  readonly run: PlanRun;
  readonly state: TrialState;
}

/** Keeps at most one trial, and the process that makes it. */
export function keepTrial(options: Options): TrialKeeper & { readonly close: () => void } {
  const { documents, plans, start, history, nowEpochMs, report } = options;
  let kept: Kept | null = null;
  let lastNumber = 0;

  const ofNumber = (number: number): Kept | null => (kept?.number === number ? kept : null);
  const shown = (of: Kept): Trial => {
    const { number, tried, before, state } = of;
    return { number, tried, before, state, outdated: outdatedBy(of, options) };
  };
  const leave = (): void => {
    kept?.run.close();
    kept = null;
  };
  const changeState = (number: number, change: (state: TrialState) => TrialState): void => {
    if (kept?.number === number) kept = { ...kept, state: change(kept.state) };
  };

  const ended = (number: number, result: Result<PassageView>): void => {
    if (!result.ok) ofNumber(number)?.run.close();
    changeState(number, () => stateOf(result));
  };

  const begin = (asked: AskedTrial, draft: DocumentText, { text, view }: From): Trial => {
    leave();
    const number = (lastNumber += 1);
    const jobName = view.names.jobs.find(({ jobId }) => jobId === asked.tried.jobId)?.name ?? asked.tried.jobId;
    const run = start({
      passage: draft,
      log: text.log,
      plans: history.plansOfWork(text.number, text.log),
      standing: view.plan,
      onProgress: (progress) =>
        changeState(number, (state) => (state.kind === 'planning' ? { ...state, ...progress } : state)),
    });
    const begun: Kept = {
      number,
      tried: { ...asked.tried, jobName },
      change: asked.change,
      of: { number: text.number, version: text.version, logNumber: text.logNumber },
      text: draft.text,
      before: view,
      run,
      state: { kind: 'planning', sinceEpochMs: nowEpochMs() },
    };
    kept = begun;
    run.finished.then(
      (result) => ended(number, result),
      (error: unknown) => {
        // A process that is ended by us says so in its result; this is another mistake.
        report(error);
        ended(number, failed(ownMistake));
      },
    );
    return shown(begun);
  };

  return {
    trial: () => (kept === null ? null : shown(kept)),
    beginTrial: async (asked) => {
      if (kept !== null && isSameAsked(kept, asked) && shown(kept).outdated === null) return ok(shown(kept));
      const draft = await documents.draftPassage({ expected: asked.expected, change: asked.change });
      if (!draft.ok) return draft;
      // What stands is looked at after the wait: it may have changed meanwhile.
      const from = beginningFrom(options);
      if (!from.ok) return from;
      if (draft.value === null) return failed(nothingToTry);
      if (!isSameVersion(draft.value, from.value.text)) return failed(planOfEarlierState);
      return ok(begin(asked, draft.value, from.value));
    },
    stopTrial: (number) => {
      const trial = ofNumber(number);
      if (trial === null || trial.state.kind !== 'planning') return;
      changeState(number, (state) => (state.kind === 'planning' ? { ...state, isStopping: true } : state));
      trial.run.stop();
    },
    leaveTrial: (number) => {
      if (ofNumber(number) !== null) leave();
    },
    takeTrial: async (number) => {
      const trial = ofNumber(number);
      if (trial === null) return failed(otherTrial);
      const taken = takable(shown(trial));
      if (!taken.ok) return taken;
      const saved = await documents.savePassage({ expected: trial.of, change: trial.change });
      if (!saved.ok) return saved;
      // Left or replaced while it was written: the start is saved, and the plan is made of it.
      if (ofNumber(number) === null) plans.renewPlan();
      else {
        kept = null;
        takeOver(trial, taken.value, { saved: saved.value, options });
      }
      return saved;
    },
    close: leave,
  };
}

const isSameAsked = ({ tried, of }: Kept, asked: AskedTrial): boolean =>
  tried.jobId === asked.tried.jobId &&
  tried.startUtc === asked.tried.startUtc &&
  tried.partIndex === asked.tried.partIndex &&
  tried.shownHandlingId === asked.tried.shownHandlingId &&
  isSameVersion(of, asked.expected);

/** The plan of the trial stands from now on; made again from it where it is not sound as it is. */
function takeOver(
  { of, run, text }: Kept,
  view: PassageView,
  { saved, options }: { readonly saved: PassageDocument; readonly options: Options },
): void {
  const { plans, passageText, nowEpochMs } = options;
  const now = passageText();
  // What was planned is to the letter what was saved, or the plan counts as one of the earlier state.
  const version = now.ok && isSameVersion(saved, now.value) && now.value.text === text ? saved.version : of.version;
  plans.takePlan({ document: { ...of, version }, run, view });
  const hasBegun = view.plan.entries.some(
    ({ kind, startUtc }) => kind === 'work' && hasPassed(startUtc, view, nowEpochMs()),
  );
  if (hasBegun) plans.makePlan();
  else plans.renewPlan();
}
