import type { Forecast } from '../lib/forecast/index.ts';
import { digestOfPassage } from '../lib/message/index.ts';
import type { Passage } from '../lib/passage/index.ts';
import { lookAtStart, type Planned, windowsPicture } from '../lib/planner/index.ts';
import { assertNever, failed, ok, type Result } from '../lib/result/index.ts';
import { MS_PER_MIN } from '../lib/time/index.ts';
import type { AskedDigest, PlanningAnswer, PlanningQuestion } from './planning-messages.ts';

/** What is kept of a plan for questions. */
export interface Kept extends Pick<Planned, 'preparation' | 'windows'> {
  /** As it stood after its log. */
  readonly passage: Passage;
  readonly forecast: Forecast;
}

type AskedWindows = PlanningQuestion & { readonly kind: 'windows' };

/**
 * Answers a question about a passage that has been planned.
 *
 * @returns the answer, or the problems of what was asked (unknown job, part or handling; a start outside the forecast;
 *   those of `digestOfPassage`)
 */
export function answerOf(kept: Kept, question: PlanningQuestion): Result<PlanningAnswer> {
  switch (question.kind) {
    case 'windows':
      return windowsAnswer(kept, question);
    case 'look':
      return lookAnswer(kept, question);
    case 'digest':
      return digestAnswer(kept, question);
    default:
      return assertNever(question);
  }
}

function digestAnswer({ passage, forecast }: Kept, asked: AskedDigest): Result<PlanningAnswer> {
  const { nowEpochMs, aheadH, mostCharacterCount } = asked;
  const digest = digestOfPassage({ passage, forecast, nowEpochMs, aheadH, mostCharacterCount });
  return digest.ok ? ok({ kind: 'digest', digest: digest.value }) : digest;
}

function windowsAnswer({ preparation, windows }: Kept, asked: AskedWindows): Result<PlanningAnswer> {
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

/** Asked where no plan was made. */
export const noPlan: Result<PlanningAnswer> = failed({
  code: 'plan.none',
  where: 'the planner',
  what: 'There is no plan to ask.',
  expected: 'a plan that has been made',
  remedy: 'Wait until the plan is made, or make it again.',
});
