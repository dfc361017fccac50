import type { Model } from './model.ts';
import type { OpenStarts, StartOutcomes, StartRange } from './open-starts.ts';
import { closeOutside, findOpenStarts, startOutcomes } from './open-starts.ts';
import { i32, item } from './typed-reads.ts';
import { latestWaitStart, waitSlotsAt } from './wait-slots.ts';

/**
 * Open starts, less those that precedence rules out: work that would begin before its predecessors can be finished and
 * the waits after them are over, or would end too late for a successor that must be done.
 */
export function findTightStarts(
  model: Model,
  leastWeight: number,
  limits: { readonly ranges: readonly StartRange[] | null; readonly must: readonly boolean[] },
): OpenStarts {
  const open = findOpenStarts(model, leastWeight, limits.ranges);
  if (model.problem.tasks.every((task) => task.after.length === 0)) return open;
  closeOutside(model, open, tightRanges(model, open, limits));
  return open;
}

function tightRanges(
  model: Model,
  open: OpenStarts,
  limits: { readonly ranges: readonly StartRange[] | null; readonly must: readonly boolean[] },
): readonly Required<StartRange>[] {
  const { tasks, slotCount } = model.problem;
  const outcomes = model.choices.map((_, choice) => startOutcomes(model, open, choice));
  const ranges = tasks.map((_, task) => ({
    fromSlot: limits.ranges?.[task]?.fromSlot ?? 0,
    toSlot: limits.ranges?.[task]?.toSlot ?? slotCount,
    endBySlot: limits.ranges?.[task]?.endBySlot ?? slotCount,
  }));
  const order = tasksInOrder(model);
  for (const task of order)
    for (const { task: before, waitSlots } of item(tasks, task).after) {
      const done = soonestEnd(model, outcomes, before, item(ranges, before).fromSlot);
      const range = item(ranges, task);
      const doneSlot = Math.min(slotCount, done);
      range.fromSlot = Math.max(range.fromSlot, doneSlot + waitSlotsAt(waitSlots, doneSlot));
    }
  for (const task of order.toReversed()) {
    if (limits.must[task] !== true) continue;
    const last = lastBegin(model, outcomes, task, item(ranges, task).endBySlot);
    for (const { task: before, waitSlots } of item(tasks, task).after) {
      const range = item(ranges, before);
      range.endBySlot = latestWaitStart(waitSlots, last, range.endBySlot);
    }
  }
  return ranges;
}

/** Tasks, each after all that come before it. */
function tasksInOrder({ problem }: Model): readonly number[] {
  const order: number[] = [];
  const seen = new Set<number>();
  const add = (task: number): void => {
    if (seen.has(task)) return;
    seen.add(task);
    for (const before of item(problem.tasks, task).after) add(before.task);
    order.push(task);
  };
  problem.tasks.forEach((_, task) => add(task));
  return order;
}

/** Earliest end of any work on the task that begins at an instant or later; above `slotCount`: none. */
function soonestEnd(model: Model, outcomes: readonly StartOutcomes[], task: number, fromSlot: number): number {
  const at = Math.min(fromSlot, model.problem.slotCount);
  return item(model.choicesOfTask, task).reduce(
    (soonest, choice) => Math.min(soonest, i32(item(outcomes, choice).soonestEndSlot, at)),
    model.problem.slotCount + 1,
  );
}

/** Last beginning of work on the task that ends by an instant; −1: none. */
function lastBegin(model: Model, outcomes: readonly StartOutcomes[], task: number, endBySlot: number): number {
  let last = -1;
  for (const choice of item(model.choicesOfTask, task)) {
    const { from, durationSlots, lastBeginSlot } = item(outcomes, choice);
    for (let t = lastBeginSlot; t > last; t--)
      for (let k = i32(from, t); k < i32(from, t + 1); k++)
        if (t + item(durationSlots, k) <= endBySlot) last = Math.max(last, t);
  }
  return last;
}
