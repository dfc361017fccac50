import { minutesText } from '../reasons/index.ts';
import { formatUtc, MS_PER_MIN, slotEpochMs } from '../time/index.ts';
import type { StandingPlan } from './plan.ts';
import type { Preparation } from './prepare.ts';
import type { OverdueJob } from './standing.ts';
import { shipTime } from './words.ts';

/** What should have begun, with how long ago, on the clock the plan is made on. */
export function publishedOverdue(
  { passage, grid, fromSlot }: Preparation,
  { jobId, startEpochMs, isHalfDone }: OverdueJob,
): StandingPlan['overdue'][number] {
  const name = passage.jobs.find(({ id }) => id === jobId)?.name ?? jobId;
  const ago = minutesText((slotEpochMs(grid, fromSlot) - startEpochMs) / MS_PER_MIN);
  const should = `"${name}" should have begun at ${shipTime(startEpochMs, passage.settings.shipTimeOffsetMin)}, ${ago} ago`;
  const text = isHalfDone
    ? `${should}, and is half done: what is left is placed anew.`
    : `${should}, and nothing of it is done: it is placed anew.`;
  return { jobId, startUtc: formatUtc(startEpochMs), halfDone: isHalfDone, text };
}
