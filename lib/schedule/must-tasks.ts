import type { Model } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import type { ScheduleJob, ScheduleProblem } from './problem.ts';
import { i32, item, u16, u8 } from './typed-reads.ts';

/** Priority weights a plan must reach at least. */
export interface WantedWeights {
  readonly priorityWeight: number;
  readonly conditionalWeight: number;
}

/** Tasks without which the wanted weights are out of reach: those of jobs that cannot be spared, and what comes before them. Jobs that cannot be done count for nothing. */
export function findMustTasks(
  { problem }: Model,
  wanted: WantedWeights,
  canStart: readonly boolean[],
): readonly boolean[] {
  const must = problem.tasks.map(() => false);
  const mark = (task: number): void => {
    if (must[task] === true) return;
    must[task] = true;
    for (const before of item(problem.tasks, task).after) mark(before.task);
  };
  for (const conditional of [false, true]) {
    const jobs = doableJobs(problem, canStart).filter((job) => job.conditional === conditional);
    const all = jobs.reduce((sum, job) => sum + job.priorityWeight, 0);
    const least = conditional ? wanted.conditionalWeight : wanted.priorityWeight;
    for (const job of jobs) if (all - job.priorityWeight < least) job.tasks.forEach(mark);
  }
  return must;
}

/** Jobs of which every task can be started. */
export const doableJobs = ({ jobs }: ScheduleProblem, canStart: readonly boolean[]): readonly ScheduleJob[] =>
  jobs.filter((job) => job.tasks.every((task) => canStart[task] === true));

/**
 * The same, from the nodes that can be reached: tasks finished wherever the wanted weights are. Sharper, since it knows
 * which jobs cannot be done together.
 */
export function findMustTasksOfNodes(
  nodes: NodeSpace,
  isReached: Uint8Array,
  wanted: WantedWeights,
): readonly boolean[] {
  const must = Array.from({ length: nodes.taskCount }, () => true);
  let isAnywhere = false;
  for (let node = 0; node < nodes.nodeCount; node++) {
    if (u8(isReached, node) === 0 || i32(nodes.priorityDone, node) < wanted.priorityWeight) continue;
    if (i32(nodes.conditionalDone, node) < wanted.conditionalWeight) continue;
    isAnywhere = true;
    for (let task = 0; task < nodes.taskCount; task++)
      if (u16(nodes.unitsLeft, node * nodes.taskCount + task) > 0) must[task] = false;
  }
  return isAnywhere ? must : must.map(() => false);
}
