import { lookAtStart, type Planned, windowsPicture } from '../lib/planner/index.ts';
import { failed, ok, type Result } from '../lib/result/index.ts';
import { MS_PER_MIN } from '../lib/time/index.ts';
import type { PlanningAnswer, PlanningQuestion } from './planning-messages.ts';

type Kept = Pick<Planned, 'preparation' | 'windows'>;

/**
 * Answers a question about a passage that has been planned.
 *
 * @returns the answer, or the problems of what was asked (unknown job, part or handling; a start outside the forecast)
 */
export function answerOf(kept: Kept, question: PlanningQuestion): Result<PlanningAnswer> {
  return question.kind === 'windows' ? windowsAnswer(kept, question) : lookAnswer(kept, question);
}

function windowsAnswer({ preparation, windows }: Kept, asked: PlanningQuestion): Result<PlanningAnswer> {
  const { jobId, blockIndex, handlingId } = asked;
  const picture = windowsPicture(preparation, { jobId, blockIndex, handlingId });
  if (!picture.ok) return picture;
  const found = windows.find((job) => job.jobId === jobId) ?? { jobId, windows: [], nearestMisses: [] };
  return ok({ kind: 'windows', picture: picture.value, windows: found, grid: preparation.grid });
}

/** The slot that begins at the instant asked for, or before it. */
function lookAnswer(
  { preparation }: Kept,
  { jobId, blockIndex, handlingId, startEpochMs }: PlanningQuestion & { readonly kind: 'look' },
): Result<PlanningAnswer> {
  const { firstEpochMs, slotMin } = preparation.grid;
  const startSlot = Math.floor((startEpochMs - firstEpochMs) / (slotMin * MS_PER_MIN));
  const look = lookAtStart(preparation, { jobId, blockIndex, handlingId, startSlot });
  return look.ok ? ok({ kind: 'look', look: look.value }) : look;
}

/** Asked of a thread that has no plan. */
export const noPlan: Result<PlanningAnswer> = failed({
  code: 'plan.none',
  where: 'the planner',
  what: 'There is no plan to ask.',
  expected: 'a plan that has been made',
  remedy: 'Wait until the plan is made, or make it again.',
});
