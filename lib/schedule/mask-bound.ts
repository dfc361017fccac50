import type { Model } from './model.ts';
import type { OpenStarts } from './open-starts.ts';
import { ScenarioSets } from './scenario-sets.ts';
import { item } from './typed-reads.ts';

/** What each task can still leave of the joint set, by instant. Only tasks that narrow it are held. */
export class MaskBound {
  private readonly setsOfTask: readonly (ScenarioSets | null)[];

  constructor(model: Model, open: OpenStarts) {
    this.setsOfTask = model.problem.tasks.map((_, task) =>
      item(model.narrows, task) ? ScenarioSets.later(model, open, task) : null,
    );
  }

  /** Greatest weight of a single start of the task at this instant or later; null: the task does not narrow. */
  bestWeight(task: number, atSlot: number): number | null {
    return item(this.setsOfTask, task)?.bestWeight(atSlot) ?? null;
  }

  /** Whether some start of the task from this instant on leaves at least so much of a joint set. */
  leavesEnough(
    at: { readonly task: number; readonly atSlot: number },
    masks: Int32Array,
    fromIndex: number,
    leastWeight: number,
  ): boolean {
    return item(this.setsOfTask, at.task)?.leavesEnough(at.atSlot, masks, fromIndex, leastWeight) ?? true;
  }
}
