import type { PlannedJob } from '../../lib/planner/index.ts';
import { of100 } from './amount-texts.ts';
import { limitName, joined } from './limit-texts.ts';
import type { PlanStanding } from './plan-standing.ts';
import { epochOf, type TimeTexts } from './time-texts.ts';

/** What the plan says of a job, in a line. */
export interface PlanWords {
  /** `Thu 13:00`, `not planned`; empty: there is no plan that knows the job. */
  readonly when: string;
  /** `inside its limits in 84 of 100`, or why not; empty: nothing more is said. */
  readonly more: string;
}

export function planWords(standing: PlanStanding, jobId: string, times: TimeTexts): PlanWords {
  const job = plannedJob(standing, jobId);
  if (job === null) return { when: '', more: noPlanText(standing) };
  if (job.status === 'done') return { when: 'done', more: '' };
  if (job.startUtc === null)
    return { when: 'not planned', more: job.nearestMiss?.text ?? 'no window in this forecast' };
  const chance = job.probability === null ? 'chance unknown' : `inside its limits in ${of100(job.probability)} of 100`;
  const condition =
    job.status === 'conditional' ? `; conditional: ${joined(job.unknownLimits.map(limitName))} unknown` : '';
  return { when: times.dayTime(epochOf(job.startUtc)), more: `${chance}${condition}` };
}

function noPlanText({ kind }: PlanStanding): string {
  if (kind === 'planning') return 'the plan is being made';
  return kind === 'ready' ? 'not in the plan that stands' : 'there is no plan';
}

const plannedJob = (standing: PlanStanding, jobId: string): PlannedJob | null =>
  standing.kind === 'ready' ? (standing.view.plan.jobs.find((job) => job.jobId === jobId) ?? null) : null;
