import { EndTables } from './end-tables.ts';
import { LabelStore } from './label-store.ts';
import type { Model } from './model.ts';

/** What one search hands on to the next: memory for labels and a completion table, and tables of sleep. */
export class Workshop {
  readonly store: LabelStore;
  readonly ends: EndTables | null;
  private cells = new Int32Array(0);

  constructor(model: Model) {
    this.store = new LabelStore(model);
    this.ends = EndTables.of(model);
  }

  /** A table of at least so many cells, whatever it holds. */
  table(cellCount: number): Int32Array {
    if (this.cells.length < cellCount) this.cells = new Int32Array(cellCount);
    return this.cells;
  }
}
