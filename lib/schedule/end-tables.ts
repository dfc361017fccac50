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
    const lastStep = grid.sOfStep.findLastIndex((s) => s + S_TOLERANCE >= rest.leastEndS);
    return this.fill((t, step) => (t >= fromSlot && step <= lastStep ? 0 : UNREACHABLE));
  }

  /** Staying awake or sleeping until something is reached; `reached` gives what it costs from there on. */
  fill(reached: (t: number, step: number) => number): Int32Array {
    const { stepCount } = this.grid;
    const values = new Int32Array((this.slotCount + 1) * stepCount);
    for (let t = this.slotCount; t >= 0; t--)
      for (let step = 0; step < stepCount; step++) {
        let least = reached(t, step);
        if (t < this.slotCount) {
          const awake = i32(values, (t + 1) * stepCount + Math.min(stepCount - 1, step + STEPS_PER_SLOT));
          if (awake < least) least = awake;
          if (least > 0) least = this.leastBySleep(values, t, step, least);
        }
        values[t * stepCount + step] = least;
      }
    return values;
  }

  private leastBySleep(values: Int32Array, t: number, step: number, known: number): number {
    const { stepCount } = this.grid;
    let least = known;
    for (const { wholeSlots, isOpen, cost, next } of this.arcs) {
      if (u8(isOpen, t) === 0) continue;
      const value = i32(cost, t) + i32(values, (t + wholeSlots) * stepCount + i32(next, step));
      if (value < least) least = value;
    }
    return least;
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
