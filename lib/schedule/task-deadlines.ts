import type { Model } from './model.ts';
import type { StartOutcomes } from './open-starts.ts';
import { i32, item } from './typed-reads.ts';

/** How late it may be for the tasks that must be done and are left: by their last starts, and by the work they need together. */
export class TaskDeadlines {
  private readonly slotCount: number;
  /** Tasks that must be done, by the last instant their work can end at. */
  private readonly tasks: readonly Deadline[];

  constructor(model: Model, outcomes: readonly StartOutcomes[], must: readonly boolean[]) {
    this.slotCount = model.problem.slotCount;
    this.tasks = must
      .flatMap((isMust, task) => (isMust ? [deadlineOf(model, outcomes, task)] : []))
      .toSorted((a, b) => a.lastEndSlot - b.lastEndSlot);
  }

  /** Last instant after which what is left cannot all be done; below 0: it never can. One hand works at one task at a time. */
  lastSlotOf(unitsLeft: readonly number[]): number {
    let last = this.slotCount;
    let workSlots = 0;
    for (const { task, lastBeginSlot, lastEndSlot, leastSlots } of this.tasks) {
      const units = item(unitsLeft, task);
      if (units === 0) continue;
      workSlots += item(leastSlots, units);
      last = Math.min(last, lastBeginSlot, lastEndSlot - workSlots);
    }
    return last;
  }
}

interface Deadline {
  readonly task: number;
  readonly lastBeginSlot: number;
  readonly lastEndSlot: number;
  /** Least slots of work for so many units. */
  readonly leastSlots: readonly number[];
}

function deadlineOf(model: Model, outcomes: readonly StartOutcomes[], task: number): Deadline {
  const choices = item(model.choicesOfTask, task).map((choice) => {
    const { unitCount } = item(model.choices, choice).choice;
    return { unitCount, ...spanOf(item(outcomes, choice), model.problem.slotCount) };
  });
  const leastSlots = [0];
  for (let units = 1; units <= item(model.problem.tasks, task).unitCount; units++)
    leastSlots[units] = choices.reduce(
      (least, { unitCount, shortest }) =>
        unitCount > units ? least : Math.min(least, item(leastSlots, units - unitCount) + shortest),
      Infinity,
    );
  return {
    task,
    lastBeginSlot: choices.reduce((last, choice) => Math.max(last, choice.lastBeginSlot), -1),
    lastEndSlot: choices.reduce((last, choice) => Math.max(last, choice.lastEndSlot), -1),
    leastSlots,
  };
}

function spanOf(
  { from, durationSlots, lastBeginSlot }: StartOutcomes,
  slotCount: number,
): { readonly shortest: number; readonly lastBeginSlot: number; readonly lastEndSlot: number } {
  let shortest = Infinity;
  let lastEndSlot = -1;
  for (let t = 0; t < slotCount; t++)
    for (let k = i32(from, t); k < i32(from, t + 1); k++) {
      shortest = Math.min(shortest, item(durationSlots, k));
      lastEndSlot = Math.max(lastEndSlot, t + item(durationSlots, k));
    }
  return { shortest, lastBeginSlot, lastEndSlot };
}
