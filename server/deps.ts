import type { PassageView, PlanStanding } from './presenters/passage-page.ts';
import type { Problem, Result } from '../lib/result/index.ts';

export type { PassageView, PlanStanding } from './presenters/passage-page.ts';

/** Everything the pages are given; nothing else reaches them. */
export interface Deps {
  /** Where the plan stands at this moment; never waits for it. */
  readonly planStanding: () => PlanStanding;
  readonly nowEpochMs: () => number;
  /** `Host` headers answered. */
  readonly allowedHosts: () => readonly string[];
  /** Takes an error that is our own mistake; the page shows none of it. */
  readonly report: (error: unknown) => void;
}

/**
 * Makes the plan of the passage; may take minutes, so it must not hold the thread that serves the pages. Tells how much of
 * the forecast has been read, 0 to 1, as long as that lasts.
 */
export type MakePlan = (onRead: (readShare: number) => void) => Promise<Result<PassageView>>;

/** Follows one run of `plan` from now on. */
export function followPlan(
  plan: MakePlan,
  deps: { nowEpochMs: () => number; report: (error: unknown) => void },
): { planStanding: () => PlanStanding; finished: Promise<PlanStanding> } {
  const sinceEpochMs = deps.nowEpochMs();
  let standing: PlanStanding = { kind: 'planning', sinceEpochMs };
  const onRead = (readShare: number): void => {
    if (standing.kind === 'planning') standing = { kind: 'planning', sinceEpochMs, readShare };
  };
  const finished = plan(onRead).then(
    (result): PlanStanding =>
      result.ok ? { kind: 'ready', view: result.value } : { kind: 'failed', problems: result.problems },
    (error: unknown): PlanStanding => {
      deps.report(error);
      return { kind: 'failed', problems: [ownMistake] };
    },
  );
  return {
    planStanding: () => standing,
    finished: finished.then((last) => (standing = last)),
  };
}

const ownMistake: Problem = {
  code: 'plan.own-mistake',
  where: 'the planner',
  what: 'The planner stopped on a mistake of its own.',
  expected: 'a plan, or the reason why there is none',
  remedy: 'Start the program again; if it stays, send the lines printed on the terminal with the passage file.',
};
