import type { Problem, Result } from '../lib/result/index.ts';
import { isSameVersion } from './documents/index.ts';
import type { PlannedOf, PlanText } from './keep-log.ts';
import type { KeptPlans } from './keep-plans.ts';
import type { KeptViews } from './keep-views.ts';
import { type PlanRun, type StartPlan, stopped } from './plan-run.ts';
import type { DigestAnswer, LookAnswer, PlanningAnswer, PlanningQuestion, WindowsAnswer } from './planning-messages.ts';
import type { NoPlan, PassageView, PlanInTheMaking, PlanStanding } from './presenters/plan-standing.ts';

/** The plan that stands, and what can be done about it. */
export interface PlanKeeper {
  readonly planStanding: () => PlanStanding;
  /**
   * Makes the plan anew, unless one of the passage and log as they are now is in the making; one of an earlier state is
   * ended. The plan that stands (after a start, the latest one kept of this passage) is given to the planner, which keeps it
   * unless it finds a better one; it is shown until the new one is there. One of another passage is shown no longer.
   */
  readonly makePlan: () => void;
  /** The same, unless the plan that stands or is in the making is of the passage and log as they are now. */
  readonly renewPlan: () => void;
  /** What the plan that is shown was made of; null: there is none. */
  readonly plannedDocument: () => PlannedOf | null;
  /**
   * Stops the making of a plan: the best one found so far is taken. Where nothing was found yet, the plan that stood
   * before stands again.
   */
  readonly stopPlan: () => void;
  /**
   * A plan made elsewhere becomes the one that stands, is kept with a number, and its process answers from now on; what is
   * in the making is ended.
   */
  readonly takePlan: (taken: TakenPlan) => void;
  readonly askWindows: (asked: Asked<'windows'>) => Promise<Result<WindowsAnswer>>;
  readonly askLook: (asked: Asked<'look'>) => Promise<Result<LookAnswer>>;
  readonly askDigest: (asked: Asked<'digest'>) => Promise<Result<DigestAnswer>>;
  readonly close: () => void;
}

type Asked<Kind> = Omit<PlanningQuestion & { readonly kind: Kind }, 'kind'>;

interface KeeperOptions {
  /** The passage as it is now with its log, or why there is none. */
  readonly passageText: () => Result<PlanText>;
  readonly start: StartPlan;
  /** Where finished plans are kept, each with its number. */
  readonly history: Pick<KeptPlans, 'keepInHistory' | 'latestPlan' | 'plansOfWork'>;
  /** Where the plan that is shown is kept for the next start; absent: nowhere. */
  readonly views?: KeptViews;
  readonly nowEpochMs: () => number;
  readonly report: (error: unknown) => void;
  /** Told each time the making of a plan has ended. */
  readonly onEnd: (standing: PlanStanding) => void;
}

interface Shown {
  readonly document: PlannedOf;
  /** null: it was kept from before this start, and nobody can be asked about it. */
  readonly run: PlanRun | null;
  readonly view: PassageView;
  /** Why it could not be kept; empty: it was. */
  readonly notKept: readonly Problem[];
}

/** A finished plan with its process, and what it was made of. */
export interface TakenPlan {
  readonly document: PlannedOf;
  readonly run: PlanRun;
  readonly view: PassageView;
}

interface Making {
  readonly run: PlanRun;
  readonly document: PlannedOf;
  readonly progress: PlanInTheMaking;
}

/** Keeps one plan and the process that answers for it. Nothing is planned before `makePlan`. */
export function keepPlan(options: KeeperOptions): PlanKeeper {
  const { passageText, start, history, views, nowEpochMs, report, onEnd } = options;
  let shown: Shown | null = null;
  let making: Making | null = null;
  /** Why no newer plan came; null: nothing went wrong. */
  let why: readonly Problem[] | null = null;
  const startedEpochMs = nowEpochMs();

  const planStanding = (): PlanStanding => {
    if (shown === null) return making?.progress ?? withoutPlan(why, startedEpochMs);
    return {
      kind: 'ready',
      view: shown.view,
      ...(shown.notKept.length === 0 ? {} : { notKept: shown.notKept }),
      ...(making === null ? {} : { making: making.progress }),
      ...(making !== null || why === null || isStop(why) ? {} : { notRenewed: why }),
      ...(shown.run === null ? { unasked: making?.progress ?? withoutPlan(why, startedEpochMs) } : {}),
    };
  };

  /** The plan as it is kept, with its number. */
  const keptOf = (view: PassageView, document: PlannedOf): Pick<Shown, 'view' | 'notKept'> => {
    const kept = history.keepInHistory(view, document);
    if (!kept.ok) return { view, notKept: kept.problems };
    const numbered = { ...view, plan: kept.value };
    views?.keepView(numbered, document);
    return { view: numbered, notKept: [] };
  };

  const ended = (made: Pick<Making, 'run' | 'document'>, result: Result<PassageView>): void => {
    const { run, document } = made;
    if (making?.run !== run) return;
    making = null;
    if (result.ok) {
      shown?.run?.close();
      shown = { run, document, ...keptOf(result.value, document) };
      why = null;
    } else {
      run.close();
      why = result.problems;
    }
    onEnd(planStanding());
  };

  /** The plan shown before this start; null: there is none. */
  const shownBefore = (passageNumber: number): Shown | null => {
    const before = views?.latestView(passageNumber) ?? null;
    return before === null ? null : { ...before, run: null, notKept: [] };
  };

  /** Of another passage a plan says nothing: it is let go, and the one this passage had before is shown. */
  const show = (passageNumber: number): void => {
    if (shown !== null && shown.document.number !== passageNumber) {
      shown.run?.close();
      [shown, why] = [null, null];
    }
    shown ??= shownBefore(passageNumber);
  };

  const begin = (): void => {
    const text = passageText();
    if (!text.ok) {
      why = text.problems;
      onEnd(planStanding());
      return;
    }
    const { number, version, logNumber, log } = text.value;
    const document = { number, version, logNumber };
    show(number);
    const run = start({
      passage: text.value,
      log,
      onProgress: (progress) => {
        if (making?.run === run) making = { ...making, progress: { ...making.progress, ...progress } };
      },
      plans: history.plansOfWork(number, log),
      standing: shown?.view.plan ?? history.latestPlan(number),
    });
    making = { run, document, progress: { kind: 'planning', sinceEpochMs: nowEpochMs() } };
    run.finished.then(
      (result) => ended({ run, document }, result),
      (error: unknown) => {
        report(error);
        ended({ run, document }, { ok: false, problems: [ownMistake] });
      },
    );
  };

  const isOfNow = (document: PlannedOf | undefined): boolean => {
    const text = passageText();
    return (
      text.ok &&
      document !== undefined &&
      isSameVersion(document, text.value) &&
      document.logNumber === text.value.logNumber
    );
  };

  const makePlan = (): void => {
    if (making !== null && isOfNow(making.document)) return;
    const earlier = making;
    making = null;
    earlier?.run.close();
    begin();
  };

  const ask = async (question: PlanningQuestion): Promise<Result<PlanningAnswer>> => {
    if (shown === null || shown.run === null) return { ok: false, problems: [noPlanYet] };
    return shown.run.ask(question);
  };

  return {
    planStanding,
    makePlan,
    renewPlan: () => {
      const answering = shown?.run === null ? null : shown;
      if (!isOfNow((making ?? answering)?.document)) makePlan();
    },
    plannedDocument: () => shown?.document ?? null,
    stopPlan: () => {
      if (making === null) return;
      making = { ...making, progress: { ...making.progress, isStopping: true } };
      making.run.stop();
    },
    takePlan: ({ run, document, view }) => {
      const earlier = [making?.run, shown?.run];
      making = null;
      for (const one of earlier) one?.close();
      shown = { run, document, ...keptOf(view, document) };
      why = null;
      onEnd(planStanding());
    },
    askWindows: async (asked) => only('windows', await ask({ kind: 'windows', ...asked })),
    askLook: async (asked) => only('look', await ask({ kind: 'look', ...asked })),
    askDigest: async (asked) => only('digest', await ask({ kind: 'digest', ...asked })),
    close: () => {
      const open = [making?.run, shown?.run];
      // Nobody is told of an end that is asked for here.
      making = null;
      for (const run of open) run?.close();
    },
  };
}

const isStop = (problems: readonly Problem[]): boolean => problems.every(({ code }) => code === stopped.code);

/** What stands while there is no plan and none is in the making; before the first one begins it is on its way. */
function withoutPlan(why: readonly Problem[] | null, sinceEpochMs: number): NoPlan {
  if (why === null) return { kind: 'planning', sinceEpochMs };
  return isStop(why) ? { kind: 'stopped' } : { kind: 'failed', problems: why };
}

/** An answer of the kind that was asked for; another kind is a mistake of ours. */
function only<Kind extends PlanningAnswer['kind']>(
  kind: Kind,
  result: Result<PlanningAnswer>,
): Result<PlanningAnswer & { readonly kind: Kind }> {
  if (!result.ok) return result;
  const { value } = result;
  if (!isOfKind(value, kind)) throw new Error(`asked for ${kind}, answered ${value.kind}`);
  return { ok: true, value };
}

const isOfKind = <Kind extends PlanningAnswer['kind']>(
  answer: PlanningAnswer,
  kind: Kind,
): answer is PlanningAnswer & { readonly kind: Kind } => answer.kind === kind;

export const ownMistake: Problem = {
  code: 'plan.own-mistake',
  where: 'the planner',
  what: 'The planner stopped on a mistake of its own.',
  expected: 'a plan, or the reason why there is none',
  remedy: 'Start the program again; if it stays, send the lines printed on the terminal with the passage file.',
};

const noPlanYet: Problem = {
  code: 'plan.none',
  where: 'the planner',
  what: 'There is no plan to ask yet.',
  expected: 'a plan that has been made',
  remedy: 'Wait until it is there.',
};
