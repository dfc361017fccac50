import { LabelStore } from './label-store.ts';
import type { Model } from './model.ts';

/** Memory that one search hands on to the next: labels, and a completion table. */
export class Workshop {
  readonly store: LabelStore;
  private cells = new Int32Array(0);

  constructor(model: Model) {
    this.store = new LabelStore(model);
  }

  /** A table of at least so many cells, whatever it holds. */
  table(cellCount: number): Int32Array {
    if (this.cells.length < cellCount) this.cells = new Int32Array(cellCount);
    return this.cells;
  }
}
