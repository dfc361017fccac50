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
  /** The first, narrow pass alone: when a whole plan can be shown. */
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

/** Only as wide as the first pass. */
const narrow = ({ settings, clock }: Timing): Timing => ({
  settings: { ...settings, beamWidths: settings.beamWidths.slice(0, 1) },
  clock,
});

export function measureSpec(spec: InstanceSpec, timing: Timing): Measured {
  const problem = makeInstance(spec);
  const first = timeSolve(problem, narrow(timing));
  const { solution, elapsedMs } = timeSolve(problem, timing);
  const { proven, provenProbability, peakOctetCount, extensionCount, worth, bound } = solution;
  return {
    spec,
    elapsedMs,
    firstMs: first.elapsedMs,
    proven,
    provenProbability,
    peakOctetCount,
    extensionCount,
    worth,
    bound,
  };
}
