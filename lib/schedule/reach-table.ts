import type { CellSpace } from './cells.ts';
import { sleeplessBefore } from './cells.ts';
import { UNREACHABLE } from './completion-table.ts';
import type { Model } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import { i16, i32, item } from './typed-reads.ts';

/** By place (node at an instant), whatever the lag: the least end value in reach, and the soonest such an end can be. */
export interface ReachTable {
  readonly values: Int32Array;
  /** Above `slotCount`: never. */
  readonly earliestEnd: Int32Array;
}

/**
 * Goes backward over all places; alertness, waits, lag and joint weight are left out.
 *
 * @param endValue of ending at a node; `UNREACHABLE`: not an end that is asked for
 */
export function fillReachTable(
  space: { readonly model: Model; readonly nodes: NodeSpace; readonly cells: CellSpace },
  endValue: Int32Array,
): ReachTable {
  const { slotCount } = space.model.problem;
  const table = {
    values: new Int32Array(space.cells.placeCount).fill(UNREACHABLE),
    earliestEnd: new Int32Array(space.cells.placeCount).fill(slotCount + 1),
  };
  const filler = new ReachFiller(space, endValue, table);
  filler.run();
  return table;
}

class ReachFiller {
  private readonly nodes: NodeSpace;
  private readonly cells: CellSpace;
  private readonly endValue: Int32Array;
  private readonly table: ReachTable;
  private readonly slotCount: number;
  private readonly afterWait: Int32Array;
  private readonly sleeps: readonly { readonly slots: number; readonly whole: number }[];
  private readonly mayNotSleep: Int32Array;

  constructor(
    { model, nodes, cells }: { readonly model: Model; readonly nodes: NodeSpace; readonly cells: CellSpace },
    endValue: Int32Array,
    table: ReachTable,
  ) {
    const { rest, configs, slotCount } = model.problem;
    this.nodes = nodes;
    this.cells = cells;
    this.endValue = endValue;
    this.table = table;
    this.slotCount = slotCount;
    this.afterWait = configs.afterWait;
    this.sleeps = (rest?.sleepSlots ?? []).map((slots) => ({ slots, whole: slots + (rest?.lookoutSlots ?? 0) }));
    this.mayNotSleep = sleeplessBefore(model);
  }

  run(): void {
    const { nodes, cells } = this;
    let started = cells.nodesByFirst.length;
    for (let t = this.slotCount; t >= 0; t--) {
      while (started > 0 && i32(nodes.firstSlot, i32(cells.nodesByFirst, started - 1)) > t) started--;
      for (let k = 0; k < started; k++) {
        const node = i32(cells.nodesByFirst, k);
        if (t <= i32(nodes.lastSlot, node)) this.fillPlace(node, t);
      }
    }
  }

  private fillPlace(node: number, t: number): void {
    const place = i32(this.cells.placeBase, node) + t;
    if (i16(this.cells.leastLag, place) > i16(this.cells.greatestLag, place)) return;
    const end = i32(this.endValue, node);
    if (end < UNREACHABLE) {
      this.table.values[place] = end;
      this.table.earliestEnd[place] = t;
    }
    if (t === this.slotCount) return;
    this.rest(place, node, t);
    for (let arc = i32(this.nodes.arcFrom, node); arc < i32(this.nodes.arcTo, node); arc++) this.work(place, arc, t);
  }

  private rest(place: number, node: number, t: number): void {
    const next = i32(this.nodes.afterWait, node);
    if (next < 0) return;
    this.reach(place, next, t + 1);
    const config = i16(this.nodes.config, node);
    // Where waiting changes no config, a sleep leads nowhere that waiting does not.
    if (this.afterWait[config] === config) return;
    for (const { slots, whole } of this.sleeps)
      if (t + whole <= this.slotCount && i32(this.mayNotSleep, t + slots) === i32(this.mayNotSleep, t))
        this.reach(place, next, t + whole);
  }

  private work(place: number, arc: number, t: number): void {
    const begin = t + i32(this.nodes.arcChangeSlots, arc);
    if (begin >= this.slotCount) return;
    const { from, durationSlots } = item(this.nodes.outcomes, i32(this.nodes.arcChoice, arc));
    const next = i32(this.nodes.arcNext, arc);
    for (let k = i32(from, begin); k < i32(from, begin + 1); k++)
      this.reach(place, next, begin + item(durationSlots, k));
  }

  private reach(place: number, next: number, atSlot: number): void {
    if (atSlot > i32(this.nodes.lastSlot, next)) return;
    const { values, earliestEnd } = this.table;
    const to = i32(this.cells.placeBase, next) + atSlot;
    if (i32(values, to) < i32(values, place)) values[place] = i32(values, to);
    if (i32(earliestEnd, to) < i32(earliestEnd, place)) earliestEnd[place] = i32(earliestEnd, to);
  }
}
