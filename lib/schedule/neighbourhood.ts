import type { FoundPlan } from './found-plan.ts';
import type { Model } from './model.ts';
import type { StartRange } from './open-starts.ts';
import type { SearchLimits } from './space.ts';
import { i32, item } from './typed-reads.ts';

const NEVER: StartRange = { fromSlot: 1, toSlot: 0 };

/**
 * A corridor round a plan: free tasks may begin anywhere, planned ones within some slots of where they begin now, all
 * others not at all. What is planned and not free must stay done, which keeps the space small.
 */
export function corridorRound(
  model: Model,
  plan: FoundPlan | null,
  asked: { readonly free: ReadonlySet<number>; readonly marginSlots: number },
): SearchLimits {
  const planned = plannedRanges(plan);
  const { tasks, slotCount } = model.problem;
  return {
    ranges: tasks.map((_, task) => {
      if (asked.free.has(task)) return { fromSlot: 0, toSlot: slotCount };
      const range = planned.get(task);
      return range === undefined
        ? NEVER
        : { fromSlot: range.fromSlot - asked.marginSlots, toSlot: range.toSlot + asked.marginSlots };
    }),
    must: tasks.map((_, task) => !asked.free.has(task) && planned.get(task)?.isFinished === true),
  };
}

/** First and last beginning of each task that a plan works at. */
export function plannedRanges(
  plan: FoundPlan | null,
): ReadonlyMap<number, StartRange & { readonly isFinished: boolean }> {
  const ranges = new Map<number, StartRange & { readonly isFinished: boolean }>();
  for (const entry of plan?.entries ?? []) {
    if (entry.kind !== 'work') continue;
    const before = ranges.get(entry.task);
    ranges.set(entry.task, {
      fromSlot: before?.fromSlot ?? entry.beginSlot,
      toSlot: entry.beginSlot,
      isFinished: entry.finishes,
    });
  }
  return ranges;
}

/** Tasks in an order that keeps precedence, the heaviest jobs first. */
export const tasksByWorth = (model: Model): readonly number[] => jobsByWorth(model).flat();

/** Tasks job by job, the heaviest first, each with the tasks it waits for; a task is listed once. */
export function jobsByWorth({ problem }: Model): readonly (readonly number[])[] {
  const seen = new Set<number>();
  const add = (task: number, into: number[]): void => {
    if (seen.has(task)) return;
    seen.add(task);
    for (const before of item(problem.tasks, task).after) add(before.task, into);
    into.push(task);
  };
  const jobs = problem.jobs.toSorted(
    (a, b) => Number(a.conditional) - Number(b.conditional) || b.priorityWeight - a.priorityWeight,
  );
  const groups = [...jobs.map(({ tasks }) => tasks), problem.tasks.map((_, task) => task)];
  return groups.map((tasks) => {
    const group: number[] = [];
    for (const task of tasks) add(task, group);
    return group;
  });
}

/** A task with those nearest to it in time: planned ones by their beginning, one not planned by its likeliest start. */
export function nearInTime(model: Model, plan: FoundPlan | null, seedTask: number, count: number): ReadonlySet<number> {
  const planned = plannedRanges(plan);
  const middle = (task: number): number => {
    const range = planned.get(task);
    return range === undefined ? likeliestStart(model, task) : (range.fromSlot + range.toSlot) / 2;
  };
  const at = middle(seedTask);
  const distances = model.problem.tasks.map((_, task) => ({ task, slots: Math.abs(middle(task) - at) }));
  const others = distances
    .filter(({ task }) => task !== seedTask)
    .toSorted((a, b) => a.slots - b.slots || a.task - b.task);
  return new Set([seedTask, ...others.slice(0, count - 1).map(({ task }) => task)]);
}

/** Instant at which the task begins with the greatest weight by itself. */
function likeliestStart({ problem, choices, choicesOfTask }: Model, task: number): number {
  let best = { weight: -1, slot: 0 };
  for (const choice of item(choicesOfTask, task))
    item(choices, choice).marginalWeight.forEach((weight, cell) => {
      if (weight > best.weight) best = { weight, slot: cell % problem.slotCount };
    });
  return best.slot;
}

/** For each scenario that a plan loses, the tasks that lose it; those that the fewest tasks lose first, then the heaviest. */
export function losers({ problem, narrows }: Model, plan: FoundPlan): readonly ReadonlySet<number>[] {
  const tasksOf = Array.from(problem.weights, (weight, w) => ({ w, weight, tasks: new Set<number>() }));
  for (const entry of plan.entries) {
    if (entry.kind !== 'work' || !item(narrows, entry.task)) continue;
    const { masks } = item(item(problem.tasks, entry.task).choices, entry.choice).table;
    const cell = i32(problem.rowOfLag, entry.lag) * problem.slotCount + entry.beginSlot;
    for (const { w, tasks } of tasksOf)
      if (((i32(item(masks, w >> 5), cell) >> (w & 31)) & 1) === 0) tasks.add(entry.task);
  }
  return tasksOf
    .filter(({ tasks }) => tasks.size > 0)
    .toSorted((a, b) => a.tasks.size - b.tasks.size || b.weight - a.weight || a.w - b.w)
    .map(({ tasks }) => tasks);
}
