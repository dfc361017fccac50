import type { Plan, PlanEntry } from '../../../lib/planner/index.ts';
import { epochOf } from '../time-texts.ts';
import type { RunOff, SailedWay } from './sailed-way.ts';

/** Work or sleep of a plan, and what the map calls it. */
export interface MapStop {
  readonly entry: PlanEntry;
  /** Of the job, by its first start; null: sleep. */
  readonly number: number | null;
  readonly name: string;
  readonly run: RunOff | null;
}

/** Work and sleep in order of time; every session of a job has the job's number. */
export function mapStops(plan: Plan, way: SailedWay | undefined): readonly MapStop[] {
  const numbers = new Map<string, number>();
  return plan.entries
    .filter(({ kind }) => kind === 'work' || kind === 'sleep')
    .toSorted((a, b) => epochOf(a.startUtc) - epochOf(b.startUtc))
    .map((entry) => {
      const { jobId } = entry;
      if (entry.kind === 'sleep' || jobId === null) return { entry, number: null, name: 'Sleep', run: null };
      const number = numbers.get(jobId) ?? numbers.size + 1;
      numbers.set(jobId, number);
      const run = way?.runs.find((one) => one.jobId === jobId && one.startUtc === entry.startUtc) ?? null;
      return { entry, number, name: plan.jobs.find((job) => job.jobId === jobId)?.name ?? 'Work', run };
    });
}
