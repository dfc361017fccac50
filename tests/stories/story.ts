/** What the three stories share: tables of hours and values, and plans read for what matters. */
import type { Plan, PlannedJob } from '../../lib/planner/index.ts';
import { BASE_EPOCH_MS } from '../planner/little-world.ts';

/** A value at an hour from rows of hour and value: straight between rows, the last one's after them. */
export function between(rows: readonly (readonly [hourH: number, value: number])[], hourH: number): number {
  const next = rows.findIndex(([rowH]) => rowH > hourH);
  const [after, before] = [rows[next], rows[(next < 0 ? rows.length : next) - 1]];
  if (before === undefined) return rows[0]?.[1] ?? Number.NaN;
  if (after === undefined) return before[1];
  return before[1] + ((hourH - before[0]) / (after[0] - before[0])) * (after[1] - before[1]);
}

/** Hours after the base time of a published instant. */
export const hourOf = (utc: string | null | undefined): number => (Date.parse(utc ?? '') - BASE_EPOCH_MS) / 3_600_000;

export function jobOf(plan: Plan, jobId: string): PlannedJob {
  const job = plan.jobs.find((candidate) => candidate.jobId === jobId);
  if (job === undefined) throw new Error(`the plan has no job ${jobId}`);
  return job;
}

/** Most of a value over slots of ten minutes from an hour on, both ends included. */
export function mostOver(value: (hourH: number) => number, fromH: number, slots: number): number {
  return Math.max(...Array.from({ length: slots + 1 }, (_, k) => value(fromH + k / 6)));
}
