import type { Model } from './model.ts';
import { f64, i32, item } from './typed-reads.ts';

/** What led to a label: a choice (its index, 0 and above), waiting, a sleep (its length's index), or nothing. */
export const BY_WAITING = -1;
const BY_START = -2;
const FIRST_SLEEP = -3;
export const bySleep = (lengthIndex: number): number => FIRST_SLEEP - lengthIndex;
export const sleepOf = (act: number): number => FIRST_SLEEP - act;

const FIRST_CAPACITY = 1 << 14;
const OCTETS_PER_COLUMN = 4;

/**
 * Partial plans, one row each, in columns that grow by doubling. Rows are written at `count` first and kept by `keep`.
 *
 * A row knows the instant, node and lag it stands at, the scenarios left (`masks`) and their weight, cost, S, the slot of
 * waking, and the instants from which memories (inertia classes, then releases) are over.
 */
export class LabelStore {
  count = 0;
  readonly wordCount: number;
  readonly memoryCount: number;
  previous = new Int32Array(0);
  act = new Int32Array(0);
  at = new Int32Array(0);
  node = new Int32Array(0);
  lag = new Int32Array(0);
  cost = new Int32Array(0);
  weight = new Int32Array(0);
  woke = new Int32Array(0);
  /** Bound of whatever grows from the label, as its pass sees it. */
  lowest = new Int32Array(0);
  /** Next label of the same cell; −1: none. */
  next = new Int32Array(0);
  s = new Float64Array(0);
  masks = new Int32Array(0);
  memories = new Int32Array(0);
  private capacity = 0;
  private readonly asksAwake: boolean;

  constructor(model: Model) {
    this.wordCount = model.scale.wordCount;
    this.memoryCount = model.inertiaClasses.length + model.releases.length;
    this.asksAwake = model.asksAwake;
    this.grow(FIRST_CAPACITY);
  }

  get octetCount(): number {
    return this.capacity * (12 + this.wordCount + this.memoryCount) * OCTETS_PER_COLUMN;
  }

  clear(): void {
    this.count = 0;
  }

  /** The start of every plan, as label 0. */
  addStart({ problem, scale, inertiaClasses, releases }: Model): void {
    const { rest } = problem;
    this.previous[0] = -1;
    this.act[0] = BY_START;
    this.at[0] = 0;
    this.node[0] = 0;
    this.lag[0] = 0;
    this.cost[0] = 0;
    this.weight[0] = scale.totalWeight;
    this.woke[0] = rest?.startWokeSlot ?? 0;
    this.lowest[0] = 0;
    this.next[0] = -1;
    this.s[0] = rest?.startS ?? 0;
    this.masks.set(scale.fullMask(problem.weights.length), 0);
    inertiaClasses.forEach((inertiaClass, k) => (this.memories[k] = rest?.startClearSlots[inertiaClass] ?? 0));
    releases.forEach((_, k) => (this.memories[inertiaClasses.length + k] = 0));
    this.count = 1;
  }

  /** Copies what work and waiting leave as it is into the row to be written, and returns that row. */
  draftFrom(label: number): number {
    const draft = this.count;
    this.woke[draft] = i32(this.woke, label);
    this.weight[draft] = i32(this.weight, label);
    this.previous[draft] = label;
    for (let k = 0; k < this.wordCount; k++)
      this.masks[draft * this.wordCount + k] = i32(this.masks, label * this.wordCount + k);
    for (let k = 0; k < this.memoryCount; k++)
      this.memories[draft * this.memoryCount + k] = i32(this.memories, label * this.memoryCount + k);
    return draft;
  }

  /** Keeps the row written last. */
  keep(): void {
    this.count++;
    if (this.count === this.capacity) this.grow(this.capacity * 2);
  }

  /** Whether a label of the same cell leaves nothing to be wished for that another has, cost and weight compared already. */
  coversRest(better: number, worse: number): boolean {
    if (this.asksAwake && i32(this.woke, better) < i32(this.woke, worse)) return false;
    return this.coversMask(better, worse) && (this.memoryCount === 0 || this.coversMemories(better, worse));
  }

  private coversMask(better: number, worse: number): boolean {
    const { masks, wordCount } = this;
    for (let k = 0; k < wordCount; k++)
      if ((i32(masks, worse * wordCount + k) & ~i32(masks, better * wordCount + k)) !== 0) return false;
    return true;
  }

  /** A memory that is over at the instant the labels stand at is as good as any. */
  private coversMemories(better: number, worse: number): boolean {
    const { memories, memoryCount } = this;
    const now = i32(this.at, better);
    for (let k = 0; k < memoryCount; k++) {
      const over = i32(memories, better * memoryCount + k);
      if (over > now && over > i32(memories, worse * memoryCount + k)) return false;
    }
    return true;
  }

  /** Alertness that a label has in store: ties between labels go to the more rested one. */
  sOf(label: number): number {
    return f64(this.s, label);
  }

  private grow(capacity: number): void {
    this.capacity = capacity;
    const wider = (from: Int32Array, width = 1): Int32Array<ArrayBuffer> => {
      const into = new Int32Array(capacity * width);
      into.set(from);
      return into;
    };
    this.previous = wider(this.previous);
    this.act = wider(this.act);
    this.at = wider(this.at);
    this.node = wider(this.node);
    this.lag = wider(this.lag);
    this.cost = wider(this.cost);
    this.weight = wider(this.weight);
    this.woke = wider(this.woke);
    this.lowest = wider(this.lowest);
    this.next = wider(this.next);
    this.masks = wider(this.masks, this.wordCount);
    this.memories = wider(this.memories, this.memoryCount);
    const s = new Float64Array(capacity);
    s.set(this.s);
    this.s = s;
  }
}

/** Labels from the start to this one. */
export function chainOf(store: LabelStore, label: number): readonly number[] {
  const chain: number[] = [];
  for (let x = label; x >= 0; x = i32(store.previous, x)) chain.push(x);
  return chain.toReversed();
}

/** Sleeps on the way to a label, in order of time. */
export function sleepsOf(
  store: LabelStore,
  label: number,
  sleepSlots: readonly number[],
): { fromSlot: number; toSlot: number }[] {
  const sleeps: { fromSlot: number; toSlot: number }[] = [];
  for (let x = label; i32(store.previous, x) >= 0; x = i32(store.previous, x)) {
    if (i32(store.act, x) > FIRST_SLEEP) continue;
    const fromSlot = i32(store.at, i32(store.previous, x));
    sleeps.push({ fromSlot, toSlot: fromSlot + item(sleepSlots, sleepOf(i32(store.act, x))) });
  }
  return sleeps.toReversed();
}
