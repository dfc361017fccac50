import type { Problem, Result } from '../lib/result/index.ts';
import { type DocumentText, type DocumentVersion, isSameVersion } from './documents/index.ts';
import { type PlanRun, type StartPlan, stopped } from './plan-run.ts';
import type { LookAnswer, PlanningAnswer, PlanningQuestion, WindowsAnswer } from './planning-messages.ts';
import type { PassageView, PlanStanding } from './presenters/plan-standing.ts';

/** The plan that stands, and what can be done about it. */
export interface PlanKeeper {
  readonly planStanding: () => PlanStanding;
  /**
   * Makes the plan anew, unless one of the passage as it is now is in the making; one of an earlier text is ended. The
   * plan that stands is given to the planner, which keeps it unless it finds a better one.
   */
  readonly makePlan: () => void;
  /** The same, unless the plan that stands or is in the making is of the passage as it is now. */
  readonly renewPlan: () => void;
  /** What the plan that is shown was made of; null: there is none. */
  readonly plannedDocument: () => DocumentVersion | null;
  /**
   * Stops the making of a plan: the best one found so far is taken. Where nothing was found yet, the plan that stood
   * before stands again.
   */
  readonly stopPlan: () => void;
  readonly askWindows: (asked: Asked<'windows'>) => Promise<Result<WindowsAnswer>>;
  readonly askLook: (asked: Asked<'look'>) => Promise<Result<LookAnswer>>;
  readonly close: () => void;
}

type Asked<Kind> = Omit<PlanningQuestion & { readonly kind: Kind }, 'kind'>;

interface KeeperOptions {
  /** The passage as it is now, or why there is none. */
  readonly passageText: () => Result<DocumentText>;
  readonly start: StartPlan;
  readonly nowEpochMs: () => number;
  readonly report: (error: unknown) => void;
  /** Told each time the making of a plan has ended. */
  readonly onEnd: (standing: PlanStanding) => void;
}

interface Shown {
  readonly document: DocumentVersion;
  readonly run: PlanRun;
  readonly view: PassageView;
}

/** Keeps one plan and the thread that answers for it. Nothing is planned before `makePlan`. */
export function keepPlan({ passageText, start, nowEpochMs, report, onEnd }: KeeperOptions): PlanKeeper {
  let shown: Shown | null = null;
  let making: { readonly run: PlanRun; readonly document: DocumentVersion } | null = null;
  let standing: PlanStanding = { kind: 'planning', sinceEpochMs: nowEpochMs() };

  const ended = (run: PlanRun, document: DocumentVersion, result: Result<PassageView>): void => {
    if (making?.run !== run) return;
    making = null;
    if (result.ok) {
      shown?.run.close();
      shown = { run, document, view: result.value };
      standing = { kind: 'ready', view: result.value };
    } else {
      run.close();
      standing = withoutNew(result.problems, shown);
    }
    onEnd(standing);
  };

  const begin = (): void => {
    const text = passageText();
    if (!text.ok) {
      standing = withoutNew(text.problems, shown);
      onEnd(standing);
      return;
    }
    const { number, version } = text.value;
    const sinceEpochMs = nowEpochMs();
    standing = { kind: 'planning', sinceEpochMs };
    const run = start({
      passage: text.value,
      onProgress: (progress) => {
        if (making?.run === run && standing.kind === 'planning') standing = { ...standing, ...progress };
      },
      standing: shown?.view.plan ?? null,
    });
    making = { run, document: { number, version } };
    run.finished.then(
      (result) => ended(run, { number, version }, result),
      (error: unknown) => {
        report(error);
        ended(run, { number, version }, { ok: false, problems: [ownMistake] });
      },
    );
  };

  const isOfNow = (document: DocumentVersion | undefined): boolean => {
    const text = passageText();
    return text.ok && document !== undefined && isSameVersion(document, text.value);
  };

  const makePlan = (): void => {
    if (making !== null && isOfNow(making.document)) return;
    const earlier = making;
    making = null;
    earlier?.run.close();
    begin();
  };

  const ask = async (question: PlanningQuestion): Promise<Result<PlanningAnswer>> => {
    if (shown === null) return { ok: false, problems: [noPlanYet] };
    return shown.run.ask(question);
  };

  return {
    planStanding: () => standing,
    makePlan,
    renewPlan: () => {
      if (!isOfNow((making ?? shown)?.document)) makePlan();
    },
    plannedDocument: () => shown?.document ?? null,
    stopPlan: () => {
      if (standing.kind === 'planning') standing = { ...standing, isStopping: true };
      making?.run.stop();
    },
    askWindows: async (asked) => only('windows', await ask({ kind: 'windows', ...asked })),
    askLook: async (asked) => only('look', await ask({ kind: 'look', ...asked })),
    close: () => {
      const open = [making?.run, shown?.run];
      // Nobody is told of an end that is asked for here.
      making = null;
      for (const run of open) run?.close();
    },
  };
}

/** What stands when no new plan came: the earlier one, after a mistake with what went wrong; else why there is none. */
function withoutNew(problems: readonly Problem[], shown: Shown | null): PlanStanding {
  const isStopped = problems.every(({ code }) => code === stopped.code);
  if (shown !== null) return { kind: 'ready', view: shown.view, ...(isStopped ? {} : { notRenewed: problems }) };
  return isStopped ? { kind: 'stopped' } : { kind: 'failed', problems };
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

const ownMistake: Problem = {
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
