import type { Problem, Result } from '../lib/result/index.ts';
import { type PlanRun, type StartPlan, stopped } from './plan-run.ts';
import type { LookAnswer, PlanningAnswer, PlanningQuestion, WindowsAnswer } from './planning-messages.ts';
import type { PassageView, PlanStanding } from './presenters/plan-standing.ts';

/** The plan that stands, and what can be done about it. */
export interface PlanKeeper {
  readonly planStanding: () => PlanStanding;
  /**
   * Makes the plan anew, unless one is in the making. The one that stands is shown until the new one is there, and is
   * given to the planner, which keeps it unless it finds a better one.
   */
  readonly makePlan: () => void;
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
  readonly start: StartPlan;
  readonly nowEpochMs: () => number;
  readonly report: (error: unknown) => void;
  /** Told each time the making of a plan has ended. */
  readonly onEnd: (standing: PlanStanding) => void;
}

interface Shown {
  readonly run: PlanRun;
  readonly view: PassageView;
}

/** Keeps one plan and the thread that answers for it. Nothing is planned before `makePlan`. */
export function keepPlan({ start, nowEpochMs, report, onEnd }: KeeperOptions): PlanKeeper {
  let shown: Shown | null = null;
  let making: PlanRun | null = null;
  let standing: PlanStanding = { kind: 'planning', sinceEpochMs: nowEpochMs() };

  const ended = (run: PlanRun, result: Result<PassageView>): void => {
    if (making !== run) return;
    making = null;
    if (result.ok) {
      shown?.run.close();
      shown = { run, view: result.value };
      standing = { kind: 'ready', view: result.value };
    } else {
      run.close();
      standing = withoutNew(result.problems, shown);
    }
    onEnd(standing);
  };

  const makePlan = (): void => {
    if (making !== null) return;
    const sinceEpochMs = nowEpochMs();
    standing = { kind: 'planning', sinceEpochMs };
    const run = start({
      onProgress: (progress) => {
        if (making === run && standing.kind === 'planning') standing = { ...standing, ...progress };
      },
      standing: shown?.view.plan ?? null,
    });
    making = run;
    run.finished.then(
      (result) => ended(run, result),
      (error: unknown) => {
        report(error);
        ended(run, { ok: false, problems: [ownMistake] });
      },
    );
  };

  const ask = async (question: PlanningQuestion): Promise<Result<PlanningAnswer>> => {
    if (shown === null) return { ok: false, problems: [noPlanYet] };
    return shown.run.ask(question);
  };

  return {
    planStanding: () => standing,
    makePlan,
    stopPlan: () => {
      if (standing.kind === 'planning') standing = { ...standing, isStopping: true };
      making?.stop();
    },
    askWindows: async (asked) => only('windows', await ask({ kind: 'windows', ...asked })),
    askLook: async (asked) => only('look', await ask({ kind: 'look', ...asked })),
    close: () => {
      const open = [making, shown?.run];
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
