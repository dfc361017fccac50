/** One problem solved, with the clock beside it. */
import {
  type ScheduleProblem,
  type ScheduleSettings,
  type ScheduleSolution,
  solveSchedule,
} from '../../lib/schedule/index.ts';
import type { InstanceSpec } from '../schedule-instances/instance-spec.ts';
import { makeInstance } from '../schedule-instances/make-instance.ts';
import type { Clock } from './clock.ts';

export interface Measured {
  readonly spec: InstanceSpec;
  readonly elapsedMs: number;
  /** When the first plan is found that has all the jobs of the best one. */
  readonly firstMs: number;
  readonly proven: boolean;
  readonly provenProbability: boolean;
  readonly peakOctetCount: number;
  readonly extensionCount: number;
  readonly worth: ScheduleSolution['worth'];
  readonly bound: ScheduleSolution['bound'];
}

export interface Timed {
  readonly solution: ScheduleSolution;
  readonly elapsedMs: number;
}

export interface Timing {
  readonly settings: ScheduleSettings;
  readonly clock: Clock;
}

export function timeSolve(problem: ScheduleProblem, { settings, clock }: Timing): Timed {
  const begunMs = clock();
  const solution = solveSchedule(problem, settings);
  return { solution, elapsedMs: clock() - begunMs };
}

export function measureSpec(spec: InstanceSpec, { settings, clock }: Timing): Measured {
  const problem = makeInstance(spec);
  const plans: { readonly priorityWeight: number; readonly ms: number }[] = [];
  const begunMs = clock();
  const onPlan = ({ worth: { priorityWeight } }: Pick<ScheduleSolution, 'worth'>): void => {
    plans.push({ priorityWeight, ms: clock() - begunMs });
  };
  const { solution, elapsedMs } = timeSolve(problem, { settings: { ...settings, onPlan }, clock });
  const { proven, provenProbability, peakOctetCount, extensionCount, worth, bound } = solution;
  const first = plans.find(({ priorityWeight }) => priorityWeight >= worth.priorityWeight);
  return {
    spec,
    elapsedMs,
    firstMs: first?.ms ?? elapsedMs,
    proven,
    provenProbability,
    peakOctetCount,
    extensionCount,
    worth,
    bound,
  };
}
