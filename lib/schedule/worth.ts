import type { ScheduleProblem } from './problem.ts';
import type { ScheduleWorth } from './solution.ts';

/** Steps of joint weight a plan reaches. */
export const jointSteps = ({ stepWeight }: ScheduleProblem, jointWeight: number): number =>
  Math.floor(jointWeight / stepWeight);

/** Level by level; any plan is better than none. */
export function isBetterWorth(problem: ScheduleProblem, a: ScheduleWorth, b: ScheduleWorth | null): boolean {
  if (b === null) return true;
  if (a.priorityWeight !== b.priorityWeight) return a.priorityWeight > b.priorityWeight;
  const steps = jointSteps(problem, a.jointWeight) - jointSteps(problem, b.jointWeight);
  if (steps !== 0) return steps > 0;
  if (a.conditionalWeight !== b.conditionalWeight) return a.conditionalWeight > b.conditionalWeight;
  return a.costPoints < b.costPoints;
}
