/** One problem solved by both. */
import {
  type ScheduleProblem,
  type ScheduleSettings,
  type ScheduleWorth,
  solveSchedule,
} from '../../lib/schedule/index.ts';
import { type HighsAnswer, solveWithHighs } from './solve-with-highs.ts';

export type Verdict = 'equal' | 'ours better' | 'ours worse' | 'ours differs from the optimum';

export interface Compared {
  readonly title: string;
  readonly highs: HighsAnswer;
  readonly ours: { readonly worth: ScheduleWorth; readonly isProven: boolean; readonly elapsedMs: number };
  readonly verdict: Verdict;
  /** Time of HiGHS by ours. */
  readonly ratio: number;
}

export async function compareCase(
  title: string,
  problem: ScheduleProblem,
  { limitS, settings, clock }: { limitS: number; settings: ScheduleSettings; clock: () => number },
): Promise<Compared> {
  const begunMs = clock();
  const solution = solveSchedule(problem, settings);
  const elapsedMs = clock() - begunMs;
  const highs = await solveWithHighs(problem, limitS, clock);
  return {
    title,
    highs,
    ours: { worth: solution.worth, isProven: solution.proven, elapsedMs },
    verdict: verdictOf(solution.worth, highs),
    ratio: highs.elapsedMs / elapsedMs,
  };
}

/** Below 0: the first is worse. */
function compareLevels(ours: ScheduleWorth, theirs: NonNullable<HighsAnswer['worth']>): number {
  return (
    ours.priorityWeight - theirs.priorityWeight ||
    ours.jointWeight - theirs.jointWeight ||
    theirs.costPoints - ours.costPoints
  );
}

export function verdictOf(ours: ScheduleWorth, { worth, isOptimal }: HighsAnswer): Verdict {
  if (worth === null) return 'ours better';
  const difference = compareLevels(ours, worth);
  if (difference === 0) return 'equal';
  if (isOptimal) return 'ours differs from the optimum';
  return difference > 0 ? 'ours better' : 'ours worse';
}

export const isFailure = ({ verdict }: Compared): boolean =>
  verdict === 'ours worse' || verdict === 'ours differs from the optimum';
