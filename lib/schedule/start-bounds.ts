import { doableJobs, findMustTasks } from './must-tasks.ts';
import type { Model } from './model.ts';
import type { OpenStarts, StartRange } from './open-starts.ts';
import { hasOpenStart, START_COST, START_STRIDE } from './open-starts.ts';
import { i32, item, u8 } from './typed-reads.ts';
import type { ScheduleWorth } from './solution.ts';

/**
 * Bounds that look at every task by itself, as if the others were not there: weak, but to be had at any size.
 *
 * @param open starts that keep the needed weight by themselves
 * @param worth of the plan at hand: joint weight and cost are bounded among plans that reach its first levels
 */
export function boundByStarts(model: Model, open: OpenStarts, worth: ScheduleWorth): ScheduleWorth {
  const { problem, scale } = model;
  const canStart = startableTasks(model, null);
  const inReach = (conditional: boolean): number =>
    doableJobs(problem, canStart)
      .filter((job) => job.conditional === conditional)
      .reduce((sum, job) => sum + job.priorityWeight, 0);
  const priorityMust = findMustTasks(model, { priorityWeight: worth.priorityWeight, conditionalWeight: 0 }, canStart);
  const must = findMustTasks(model, worth, canStart);
  return {
    priorityWeight: inReach(false),
    jointWeight: priorityMust.reduce(
      (least, isMust, task) => (isMust && item(model.narrows, task) ? Math.min(least, bestWeight(model, task)) : least),
      scale.totalWeight,
    ),
    conditionalWeight: inReach(true),
    costPoints: must.reduce(
      (sum, isMust, task) => sum + leastTaskCost(model, open, { task, isMust }),
      leastIdleCost(model) + leastEndCost(model),
    ),
  };
}

/** Tasks with a start of their own, and whose predecessors have one. */
export function startableTasks(model: Model, ranges: readonly StartRange[] | null): readonly boolean[] {
  const { tasks } = model.problem;
  const hasStart = tasks.map((_, task) =>
    item(model.choicesOfTask, task).some((choice) =>
      hasOpenStart(model, item(model.choices, choice), ranges?.[task] ?? null),
    ),
  );
  const known = new Map<number, boolean>();
  const canStart = (task: number): boolean => {
    const found = known.get(task);
    if (found !== undefined) return found;
    const answer = item(hasStart, task) && item(tasks, task).after.every((before) => canStart(before.task));
    known.set(task, answer);
    return answer;
  };
  return tasks.map((_, task) => canStart(task));
}

const bestWeight = (model: Model, task: number): number =>
  item(model.choicesOfTask, task).reduce(
    (best, choice) => item(model.choices, choice).marginalWeight.reduce((most, weight) => Math.max(most, weight), best),
    0,
  );

/** Least cost of a task that is done, or of one that need not be: then never above 0. */
function leastTaskCost(
  model: Model,
  open: OpenStarts,
  of: { readonly task: number; readonly isMust: boolean },
): number {
  const task = item(model.problem.tasks, of.task);
  const perUnit = item(model.choicesOfTask, of.task).reduce(
    (least, choice) =>
      Math.min(least, leastStartCost(model, open, choice) / item(model.choices, choice).choice.unitCount),
    Infinity,
  );
  if (perUnit === Infinity) return 0;
  const finish = task.finishCostPoints?.reduce((least, cost) => Math.min(least, cost), Infinity) ?? 0;
  const whole = Math.ceil(perUnit * task.unitCount - 1e-6) + finish;
  return of.isMust ? whole : Math.min(0, perUnit * task.unitCount, whole);
}

function leastStartCost({ problem }: Model, open: OpenStarts, choice: number): number {
  const starts = item(open.starts, choice);
  const isOpen = item(open.isOpen, choice);
  let least = Infinity;
  for (let t = i32(open.firstSlot, choice); t < problem.slotCount; t++) {
    if (u8(isOpen, t) === 0) continue;
    const from = (t - i32(open.firstSlot, choice)) * problem.rowCount;
    for (let start = from * START_STRIDE; start < (from + problem.rowCount) * START_STRIDE; start += START_STRIDE)
      if (i32(starts, start) > 0) least = Math.min(least, i32(starts, start + START_COST));
  }
  return least;
}

/** What waiting can give back at most, in quanta gained. */
function leastIdleCost({ problem }: Model): number {
  const { configs, slotCount, costPerQuantum } = problem;
  let cost = 0;
  for (let t = 0; t < slotCount; t++) {
    let least = 0;
    for (let config = 0; config < configs.count; config++) {
      const at = config * (slotCount + 1) + t;
      least = Math.min(least, (i32(configs.waitQuanta, at + 1) - i32(configs.waitQuanta, at)) * costPerQuantum);
    }
    cost += least;
  }
  return cost;
}

const leastEndCost = ({ problem }: Model): number =>
  problem.endCostPoints?.reduce((least, cost) => Math.min(least, cost), Infinity) ?? 0;
