/** Planning again after one job is done, with and without the old plan to start from. */
import type { InstanceSpec } from '../schedule-instances/instance-spec.ts';
import { makeInstance } from '../schedule-instances/make-instance.ts';
import { afterFirstJob } from './after-first-job.ts';
import { timeSolve, type Timing } from './measure.ts';

export interface Replanned {
  readonly spec: InstanceSpec;
  readonly freshMs: number;
  readonly warmMs: number;
  /** Both proven and of different worth: a fault. */
  readonly differs: boolean;
}

export function replan(spec: InstanceSpec, timing: Timing): Replanned | null {
  const problem = makeInstance(spec);
  const rest = afterFirstJob(problem, timeSolve(problem, timing).solution.entries);
  if (rest === null) return null;
  const fresh = timeSolve(rest.problem, timing);
  const warm = timeSolve(rest.problem, { ...timing, settings: { ...timing.settings, incumbent: rest.incumbent } });
  const bothProven = fresh.solution.proven && warm.solution.proven;
  return {
    spec,
    freshMs: fresh.elapsedMs,
    warmMs: warm.elapsedMs,
    differs: bothProven && JSON.stringify(fresh.solution.worth) !== JSON.stringify(warm.solution.worth),
  };
}
