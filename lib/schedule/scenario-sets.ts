import type { Model } from './model.ts';
import type { OpenStarts } from './open-starts.ts';
import { START_STRIDE } from './open-starts.ts';
import type { ScenarioScale } from './scenario-scale.ts';
import { i32, item, u8 } from './typed-reads.ts';

/** Most sets kept apart; the lightest beyond it are united, which keeps the bound true and makes it weaker. */
const MOST_SETS = 48;

/** The scenario sets of a task's starts up to some instant: none part of another, heaviest first. */
interface Kept {
  readonly masks: Int32Array;
  readonly setCount: number;
  readonly bestWeight: number;
}

/** What a task can leave of a joint set, by instant: with the starts from then on, or with the work that is over by then. */
export class ScenarioSets {
  private readonly scale: ScenarioScale;
  private readonly keptAt: readonly Kept[];
  /** Set that was good enough last time: tried first. */
  private hint = 0;

  private constructor(scale: ScenarioScale, keptAt: readonly Kept[]) {
    this.scale = scale;
    this.keptAt = keptAt;
  }

  /** Of the starts at an instant or later. */
  static later(model: Model, open: OpenStarts, task: number): ScenarioSets {
    const { slotCount } = model.problem;
    const grown = new GrowingSets(model.scale);
    const keptAt: Kept[] = [];
    keptAt[slotCount] = grown.keep();
    for (let t = slotCount - 1; t >= 0; t--) {
      for (const choice of item(model.choicesOfTask, task))
        if (u8(item(open.isOpen, choice), t) === 1) addStarts(model, open, { choice, t }, () => grown);
      keptAt[t] = grown.keep();
    }
    return new ScenarioSets(model.scale, keptAt);
  }

  /** Of the work that is over at an instant or sooner. */
  static earlier(model: Model, open: OpenStarts, task: number): ScenarioSets {
    const { slotCount } = model.problem;
    const ending = Array.from({ length: slotCount + 1 }, () => new GrowingSets(model.scale));
    for (const choice of item(model.choicesOfTask, task))
      for (let t = 0; t < slotCount; t++)
        if (u8(item(open.isOpen, choice), t) === 1)
          addStarts(model, open, { choice, t }, (endSlot) => item(ending, endSlot));
    const grown = new GrowingSets(model.scale);
    const keptAt = ending.map((sets) => {
      grown.addAll(sets);
      return grown.keep();
    });
    return new ScenarioSets(model.scale, keptAt);
  }

  /** Greatest weight of a single start. */
  bestWeight(atSlot: number): number {
    return item(this.keptAt, atSlot).bestWeight;
  }

  /** Whether some start leaves at least so much of a joint set. */
  leavesEnough(atSlot: number, masks: Int32Array, fromIndex: number, leastWeight: number): boolean {
    const { masks: sets, setCount } = item(this.keptAt, atSlot);
    const { scale } = this;
    const first = this.hint;
    if (first < setCount && scale.weighBoth(masks, fromIndex, sets, first * scale.wordCount) >= leastWeight)
      return true;
    for (let k = 0; k < setCount; k++) {
      if (scale.weighBoth(masks, fromIndex, sets, k * scale.wordCount) < leastWeight) continue;
      this.hint = k;
      return true;
    }
    return false;
  }
}

/** Sets none of which is part of another. */
class GrowingSets {
  private readonly scale: ScenarioScale;
  private sets: Int32Array[] = [];
  private bestWeight = 0;
  private kept: Kept | null = null;

  constructor(scale: ScenarioScale) {
    this.scale = scale;
  }

  /** The mask is copied when it is kept. */
  add(mask: Int32Array): void {
    for (const set of this.sets) if (isPart(mask, set)) return;
    this.sets = [mask.slice(), ...this.sets.filter((set) => !isPart(set, mask))];
    this.bestWeight = Math.max(this.bestWeight, this.scale.weigh(mask, 0));
    this.kept = null;
  }

  addAll({ sets }: GrowingSets): void {
    for (const set of sets) this.add(set);
  }

  keep(): Kept {
    if (this.kept !== null) return this.kept;
    this.sets = this.thinned();
    const { wordCount } = this.scale;
    const masks = new Int32Array(this.sets.length * wordCount);
    this.sets.forEach((set, k) => masks.set(set, k * wordCount));
    this.kept = { masks, setCount: this.sets.length, bestWeight: this.bestWeight };
    return this.kept;
  }

  private thinned(): Int32Array[] {
    const sorted = this.sets
      .map((set) => ({ set, weight: this.scale.weigh(set, 0) }))
      .toSorted((a, b) => b.weight - a.weight)
      .map(({ set }) => set);
    if (sorted.length <= MOST_SETS) return sorted;
    const union = Int32Array.from({ length: this.scale.wordCount }, (_, word) =>
      sorted.slice(MOST_SETS - 1).reduce((bits, set) => bits | i32(set, word), 0),
    );
    return [...sorted.slice(0, MOST_SETS - 1).filter((set) => !isPart(set, union)), union];
  }
}

/** Adds the masks of the open rows of a choice at an instant to the sets of the instant they end at. */
function addStarts(
  { problem, choices, scale }: Model,
  open: OpenStarts,
  { choice, t }: { readonly choice: number; readonly t: number },
  setsOfEnd: (endSlot: number) => GrowingSets,
): void {
  const { masks } = item(choices, choice).choice.table;
  const starts = item(open.starts, choice);
  const firstRow = (t - i32(open.firstSlot, choice)) * problem.rowCount;
  const mask = new Int32Array(scale.wordCount);
  let slotsBefore = 0;
  for (let row = 0; row < problem.rowCount; row++) {
    const slots = i32(starts, (firstRow + row) * START_STRIDE);
    if (slots === 0) continue;
    // Neighbouring rows are mostly alike.
    let isSame = slots === slotsBefore;
    for (let word = 0; word < scale.wordCount; word++) {
      const bits = i32(item(masks, word), row * problem.slotCount + t);
      if (bits !== mask[word]) isSame = false;
      mask[word] = bits;
    }
    slotsBefore = slots;
    if (!isSame) setsOfEnd(t + slots).add(mask);
  }
}

function isPart(part: Int32Array, whole: Int32Array): boolean {
  for (let word = 0; word < part.length; word++) if ((i32(part, word) & ~i32(whole, word)) !== 0) return false;
  return true;
}
