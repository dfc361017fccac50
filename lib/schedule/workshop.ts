import { EndTables } from './end-tables.ts';
import { LabelStore } from './label-store.ts';
import type { Model } from './model.ts';

/** What one search hands on to the next: memory for labels and a completion table, and tables of sleep. */
export class Workshop {
  readonly store: LabelStore;
  private readonly model: Model;
  private endTables: EndTables | null | undefined;
  private cells = new Int32Array(0);

  constructor(model: Model) {
    this.store = new LabelStore(model);
    this.model = model;
  }

  /** Tables of sleep, made when first asked for; null: there are none. */
  get ends(): EndTables | null {
    if (this.endTables === undefined) this.endTables = EndTables.of(this.model);
    return this.endTables;
  }

  /** A table of at least so many cells, whatever it holds. */
  table(cellCount: number): Int32Array {
    if (this.cells.length < cellCount) this.cells = new Int32Array(cellCount);
    return this.cells;
  }
}
