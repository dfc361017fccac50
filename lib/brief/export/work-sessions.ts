import type { Plan, PlanEntry, PlannedJob } from '../../planner/index.ts';

/** One go at a job. */
export interface WorkSession {
  readonly entry: PlanEntry;
  /** null: the plan names a job it does not list. */
  readonly job: PlannedJob | null;
  readonly jobId: string;
  /** `Sew the torn leech`; the id where the plan does not list the job. */
  readonly name: string;
  /** From 1, in order of time. */
  readonly sessionNumber: number;
  readonly sessionCount: number;
}

/** All work of a plan in order of time, each with its place among the goes at its job. */
export function workSessions(plan: Plan): WorkSession[] {
  const work = plan.entries.filter(({ kind }) => kind === 'work').toSorted(byStart);
  return work.map((entry) => {
    const job = plan.jobs.find(({ jobId }) => jobId === entry.jobId) ?? null;
    const goes = work.filter(({ jobId }) => jobId === entry.jobId);
    return {
      entry,
      job,
      jobId: entry.jobId ?? '',
      name: job?.name ?? entry.jobId ?? 'Work',
      sessionNumber: goes.indexOf(entry) + 1,
      sessionCount: goes.length,
    };
  });
}

/** Earlier first; what begins together by its end. */
export const byStart = (a: PlanEntry, b: PlanEntry): number =>
  Date.parse(a.startUtc) - Date.parse(b.startUtc) || Date.parse(a.endUtc) - Date.parse(b.endUtc);

/** Name of the job of an entry. */
export const jobNameOf = (plan: Plan, { jobId, kind }: PlanEntry): string =>
  plan.jobs.find((job) => job.jobId === jobId)?.name ?? jobId ?? kind;

/** `, 2 of 5`; empty where one go does it. */
export const sessionText = ({ sessionNumber, sessionCount }: WorkSession): string =>
  sessionCount < 2 ? '' : `, ${sessionNumber} of ${sessionCount}`;
