import { sleeplessBefore } from './cells.ts';
import { UNREACHABLE } from './completion-table.ts';
import type { Model } from './model.ts';
import type { RestModel } from './problem.ts';
import type { RestGrid } from './rest-grid.ts';
import { buildRestGrid, S_TOLERANCE, STEPS_PER_SLOT } from './rest-grid.ts';
import { f64, i32, item, u8 } from './typed-reads.ts';

/** Earliest ends told apart: others are taken for the next one before. */
const END_COUNT = 24;

/** A table by instant and step of the rest grid: `[t * stepCount + step]`. */
export class EndTables {
  readonly grid: RestGrid;
  readonly slotCount: number;
  private readonly rest: RestModel;
  private readonly arcs: readonly SleepArc[];
  private readonly slotsPerEnd: number;
  private readonly tables: (Int32Array | undefined)[] = [];

  private constructor(model: Model, rest: RestModel, grid: RestGrid) {
    this.grid = grid;
    this.rest = rest;
    this.slotCount = model.problem.slotCount;
    this.arcs = sleepArcs(model, rest, grid);
    this.slotsPerEnd = Math.max(1, Math.ceil(this.slotCount / END_COUNT));
  }

  /** null: nobody tires, or no grid can be made. */
  static of(model: Model): EndTables | null {
    const { rest } = model.problem;
    const grid = rest === null ? null : buildRestGrid(model.problem, rest);
    return rest === null || grid === null ? null : new EndTables(model, rest, grid);
  }

  /** Least cost of sleep that lets the plan end at this instant or later. */
  endingFrom(slot: number): Int32Array {
    const k = Math.floor(Math.min(slot, this.slotCount) / this.slotsPerEnd);
    return this.tables[k] ?? (this.tables[k] = this.fillEnd(k * this.slotsPerEnd));
  }

  private fillEnd(fromSlot: number): Int32Array {
    const { grid, rest } = this;
    const stepCount = 1 + grid.sOfStep.findLastIndex((s) => s + S_TOLERANCE >= rest.leastEndS);
    return this.fill(this.slotCount, (values, { t, from }) => {
      if (t >= fromSlot) values.fill(0, from, from + stepCount);
    });
  }

  /**
   * Staying awake or sleeping until something is reached, at `lastSlot` or sooner. `reach` lowers a row of the table to what
   * it costs from there on.
   */
  fill(lastSlot: number, reach: (values: Int32Array, row: TableRow) => void): Int32Array {
    const { stepCount } = this.grid;
    const values = new Int32Array((this.slotCount + 1) * stepCount).fill(UNREACHABLE);
    for (let t = lastSlot; t >= 0; t--) {
      reach(values, { t, from: t * stepCount });
      if (t < this.slotCount) this.passTime(values, t);
    }
    return values;
  }

  private passTime(values: Int32Array, t: number): void {
    const firstStep = this.stayAwake(values, t);
    if (firstStep === this.grid.stepCount) return;
    for (const arc of this.arcs) if (u8(arc.isOpen, t) === 1) this.sleep(values, { t, firstStep }, arc);
  }

  /** Returns the first step from which something has to be paid. */
  private stayAwake(values: Int32Array, t: number): number {
    const { stepCount } = this.grid;
    const [from, next] = [t * stepCount, (t + 1) * stepCount];
    let firstStep = stepCount;
    for (let step = stepCount - 1; step >= 0; step--) {
      const value = i32(values, next + Math.min(stepCount - 1, step + STEPS_PER_SLOT));
      if (value < i32(values, from + step)) values[from + step] = value;
      if (i32(values, from + step) > 0) firstStep = step;
    }
    return firstStep;
  }

  private sleep(
    values: Int32Array,
    { t, firstStep }: { readonly t: number; readonly firstStep: number },
    { wholeSlots, cost, next }: SleepArc,
  ): void {
    const { stepCount } = this.grid;
    const [from, woken, slept] = [t * stepCount, (t + wholeSlots) * stepCount, i32(cost, t)];
    for (let step = firstStep; step < stepCount; step++) {
      const value = slept + i32(values, woken + i32(next, step));
      if (value < i32(values, from + step)) values[from + step] = value;
    }
  }

  /** Lowest step with at least this S; −1: none. */
  lowestStepWith(s: number): number {
    const { sOfStep, stepCount } = this.grid;
    let [low, high] = [-1, stepCount - 1];
    while (low < high) {
      const middle = Math.ceil((low + high) / 2);
      if (f64(sOfStep, middle) + S_TOLERANCE >= s) low = middle;
      else high = middle - 1;
    }
    return low;
  }
}

/** Row of an instant, with the index of its first step. */
export interface TableRow {
  readonly t: number;
  readonly from: number;
}

interface SleepArc {
  /** Sleep and look round. */
  readonly wholeSlots: number;
  /** By instant of falling asleep. */
  readonly isOpen: Uint8Array;
  readonly cost: Int32Array;
  /** Step after it, by step before. */
  readonly next: Int32Array;
}

function sleepArcs(model: Model, rest: RestModel, grid: RestGrid): readonly SleepArc[] {
  const { slotCount } = model.problem;
  const mayNot = sleeplessBefore(model);
  const costBefore = new Int32Array(slotCount + 1);
  for (let t = 0; t < slotCount; t++) costBefore[t + 1] = i32(costBefore, t) + i32(rest.sleepCostPoints, t);
  return rest.sleepSlots.map((slots, k) => {
    const wholeSlots = slots + rest.lookoutSlots;
    const isOpen = new Uint8Array(slotCount + 1);
    const cost = new Int32Array(slotCount + 1);
    for (let t = 0; t + wholeSlots <= slotCount; t++) {
      isOpen[t] = i32(mayNot, t + slots) > i32(mayNot, t) ? 0 : 1;
      cost[t] = i32(costBefore, t + slots) - i32(costBefore, t);
    }
    return { wholeSlots, isOpen, cost, next: item(grid.afterSleep, k) };
  });
}
