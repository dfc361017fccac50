import type { CellSpace } from './cells.ts';
import type { LabelStore } from './label-store.ts';
import { f64, i32 } from './typed-reads.ts';

/** Labels that wait for their instant, in a list for each cell; none that another of its cell dominates. */
export class Frontier {
  private readonly store: LabelStore;
  private readonly cells: CellSpace;
  private readonly heads: (Int32Array | null)[];
  private readonly touched: number[][];
  private readonly spare: Int32Array[] = [];
  private readonly regardsCost: boolean;
  private headCount = 0;

  /** @param regardsCost whether a cheaper label is better than an equal one */
  constructor(store: LabelStore, cells: CellSpace, regardsCost: boolean) {
    this.store = store;
    this.cells = cells;
    this.regardsCost = regardsCost;
    this.heads = Array.from({ length: cells.instantStart.length }, () => null);
    this.touched = Array.from({ length: cells.instantStart.length }, () => []);
  }

  get octetCount(): number {
    return this.headCount * this.cells.mostCellsOfInstant * 4;
  }

  /** Keeps the row written last in the store unless a label of its cell is as good; drops those it betters. */
  offer(atSlot: number, cell: number): void {
    const { store } = this;
    const heads = this.heads[atSlot] ?? this.open(atSlot);
    const k = cell - i32(this.cells.instantStart, atSlot);
    const draft = store.count;
    const first = i32(heads, k);
    if (first < 0) this.touched[atSlot]?.push(k);
    // Each by itself, not destructured from a list: every pair of a cell comes by here, and lists would be made for each.
    const weight = i32(store.weight, draft);
    const s = f64(store.s, draft);
    const cost = this.costOf(draft);
    let before = -1;
    for (let x = first; x >= 0;) {
      const weightX = i32(store.weight, x);
      const sX = f64(store.s, x);
      const costX = this.costOf(x);
      if (weightX >= weight && sX >= s && costX <= cost && store.coversRest(x, draft)) {
        if (before >= 0) this.moveFirst(heads, k, { label: x, before });
        return;
      }
      const after = i32(store.next, x);
      const isWorse = weightX <= weight && sX <= s && costX >= cost && store.coversRest(draft, x);
      if (!isWorse) before = x;
      else if (before < 0) heads[k] = after;
      else store.next[before] = after;
      x = after;
    }
    store.next[draft] = i32(heads, k);
    heads[k] = draft;
    store.keep();
  }

  /** A label that dominates once is likely to again: it is asked first the next time. */
  private moveFirst(heads: Int32Array, k: number, at: { readonly label: number; readonly before: number }): void {
    const { next } = this.store;
    next[at.before] = i32(next, at.label);
    next[at.label] = i32(heads, k);
    heads[k] = at.label;
  }

  private costOf(label: number): number {
    return this.regardsCost ? i32(this.store.cost, label) : 0;
  }

  /** Labels of an instant, which is closed by that. */
  take(atSlot: number): number[] {
    const heads = this.heads[atSlot] ?? null;
    const labels: number[] = [];
    if (heads === null) return labels;
    const touched = this.touched[atSlot] ?? [];
    for (const k of touched) {
      for (let x = i32(heads, k); x >= 0; x = i32(this.store.next, x)) labels.push(x);
      heads[k] = -1;
    }
    this.touched[atSlot] = [];
    this.heads[atSlot] = null;
    this.spare.push(heads);
    return labels;
  }

  private open(atSlot: number): Int32Array {
    const heads = this.spare.pop() ?? this.freshHeads();
    this.heads[atSlot] = heads;
    return heads;
  }

  private freshHeads(): Int32Array {
    this.headCount++;
    return new Int32Array(this.cells.mostCellsOfInstant).fill(-1);
  }
}
