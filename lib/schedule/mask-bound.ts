import type { Model } from './model.ts';
import type { OpenStarts } from './open-starts.ts';
import { START_STRIDE } from './open-starts.ts';
import { i32, item, u8 } from './typed-reads.ts';

/** Most sets kept apart for a task; the lightest beyond it are united, which keeps the bound true and makes it weaker. */
const MOST_SETS = 48;

/** For a task and an instant: the scenario sets of its starts from then on, none part of another, heaviest first. */
interface LateSets {
  readonly masks: Int32Array;
  readonly setCount: number;
  readonly bestWeight: number;
}

/** What each task can still leave of the joint set, by instant. Only tasks that narrow it are held. */
export class MaskBound {
  private readonly model: Model;
  private readonly setsOfTask: readonly (readonly LateSets[] | null)[];
  /** Set that was good enough last time, by task: tried first. */
  private readonly hint: Int32Array;

  constructor(model: Model, open: OpenStarts) {
    this.model = model;
    this.setsOfTask = model.problem.tasks.map((_, task) =>
      item(model.narrows, task) ? lateSets(model, open, task) : null,
    );
    this.hint = new Int32Array(model.problem.tasks.length);
  }

  /** Greatest weight of a single start of the task at this instant or later; null: the task does not narrow. */
  bestWeight(task: number, atSlot: number): number | null {
    const sets = item(this.setsOfTask, task);
    return sets === null ? null : item(sets, atSlot).bestWeight;
  }

  /** Whether some start of the task from this instant on leaves at least so much of a joint set. */
  leavesEnough(
    at: { readonly task: number; readonly atSlot: number },
    masks: Int32Array,
    fromIndex: number,
    leastWeight: number,
  ): boolean {
    const late = item(this.setsOfTask, at.task);
    if (late === null) return true;
    const { masks: sets, setCount } = item(late, at.atSlot);
    const { scale } = this.model;
    const first = i32(this.hint, at.task);
    if (first < setCount && scale.weighBoth(masks, fromIndex, sets, first * scale.wordCount) >= leastWeight)
      return true;
    for (let k = 0; k < setCount; k++) {
      if (scale.weighBoth(masks, fromIndex, sets, k * scale.wordCount) < leastWeight) continue;
      this.hint[at.task] = k;
      return true;
    }
    return false;
  }
}

function lateSets(model: Model, open: OpenStarts, task: number): readonly LateSets[] {
  const { slotCount } = model.problem;
  const all: LateSets[] = [];
  let sets: Int32Array[] = [];
  let late = frozen(model, sets, 0);
  all[slotCount] = late;
  for (let t = slotCount - 1; t >= 0; t--) {
    let isChanged = false;
    let { bestWeight } = late;
    for (const choice of item(model.choicesOfTask, task)) {
      if (u8(item(open.isOpen, choice), t) === 0) continue;
      for (const mask of masksAt(model, open, choice, t)) {
        if (sets.some((set) => isPart(mask, set))) continue;
        sets = [mask, ...sets.filter((set) => !isPart(set, mask))];
        bestWeight = Math.max(bestWeight, model.scale.weigh(mask, 0));
        isChanged = true;
      }
    }
    if (isChanged) {
      sets = thinned(model, sets);
      late = frozen(model, sets, bestWeight);
    }
    all[t] = late;
  }
  return all;
}

/** Masks of the open rows of a choice at an instant, rows that repeat the one before left out. */
function masksAt(
  { problem, choices, scale }: Model,
  open: OpenStarts,
  choice: number,
  t: number,
): readonly Int32Array[] {
  const { masks } = item(choices, choice).choice.table;
  const starts = item(open.starts, choice);
  const firstRow = (t - i32(open.firstSlot, choice)) * problem.rowCount;
  const found: Int32Array[] = [];
  for (let row = 0; row < problem.rowCount; row++) {
    const cell = row * problem.slotCount + t;
    if (i32(starts, (firstRow + row) * START_STRIDE) === 0) continue;
    const mask = new Int32Array(scale.wordCount);
    for (let word = 0; word < scale.wordCount; word++) mask[word] = i32(item(masks, word), cell);
    const before = found.at(-1);
    if (before === undefined || !isPart(mask, before)) found.push(mask);
  }
  return found;
}

function isPart(part: Int32Array, whole: Int32Array): boolean {
  for (let word = 0; word < part.length; word++) if ((i32(part, word) & ~i32(whole, word)) !== 0) return false;
  return true;
}

function thinned({ scale }: Model, sets: readonly Int32Array[]): Int32Array[] {
  const sorted = sets
    .map((set) => ({ set, weight: scale.weigh(set, 0) }))
    .toSorted((a, b) => b.weight - a.weight)
    .map(({ set }) => set);
  if (sorted.length <= MOST_SETS) return sorted;
  const union = Int32Array.from({ length: scale.wordCount }, (_, word) =>
    sorted.slice(MOST_SETS - 1).reduce((bits, set) => bits | i32(set, word), 0),
  );
  return [...sorted.slice(0, MOST_SETS - 1).filter((set) => !isPart(set, union)), union];
}

function frozen({ scale }: Model, sets: readonly Int32Array[], bestWeight: number): LateSets {
  const masks = new Int32Array(sets.length * scale.wordCount);
  sets.forEach((set, k) => masks.set(set, k * scale.wordCount));
  return { masks, setCount: sets.length, bestWeight };
}
