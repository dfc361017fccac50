import type { CellSpace } from './cells.ts';
import { UNREACHABLE } from './completion-table.ts';
import type { LabelStore } from './label-store.ts';
import type { MaskBound } from './mask-bound.ts';
import type { Model, Release } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import type { OpenStarts } from './open-starts.ts';
import type { ReachTable } from './reach-table.ts';
import type { SleepNeed } from './sleep-need.ts';
import { i16, i32, item, u16 } from './typed-reads.ts';
import { waitSlotsAt } from './wait-slots.ts';

/**
 * What a pass looks for. Every level is a value to be made least: priority weight done (negative), steps of joint weight
 * (negative), conditional weight done (negative), cost.
 */
export type AimLevel = 'priority' | 'joint' | 'conditional' | 'cost';

export interface Space {
  readonly model: Model;
  readonly nodes: NodeSpace;
  readonly cells: CellSpace;
  readonly masks: MaskBound;
  readonly open: OpenStarts;
}

/** A node at an instant and a lag, with the indices of its place and cell. */
export interface Standing {
  readonly node: number;
  readonly atSlot: number;
  readonly lag: number;
  readonly place: number;
  readonly cell: number;
}

export interface AimBounds {
  readonly reach: ReachTable;
  /** Least cost to come, by cell; null: the level looks at no cost. */
  readonly costToCome: Int32Array | null;
  readonly need: SleepNeed | null;
  /** What a plan that ends at a node is worth, before its cost; `UNREACHABLE`: it does not count. */
  readonly endWorth: Int32Array;
}

/** One level with its bounds. `best` falls as better plans are found. */
export class Aim {
  readonly level: AimLevel;
  readonly open: OpenStarts;
  /** Weight every label keeps at least; rises with `best` when joint weight is what is aimed at. */
  leastWeight: number;
  best: number;
  private readonly space: Space;
  private readonly bounds: AimBounds;
  /** Tasks that narrow the joint set and must be done. */
  private readonly mustTasks: readonly number[];

  constructor(
    space: Space,
    asked: {
      readonly level: AimLevel;
      readonly best: number;
      readonly leastWeight: number;
      readonly must: readonly boolean[];
    },
    bounds: AimBounds,
  ) {
    this.space = space;
    this.level = asked.level;
    this.open = space.open;
    this.bounds = bounds;
    this.leastWeight = asked.leastWeight;
    this.best = asked.best;
    this.mustTasks = asked.must.flatMap((isMust, task) => (isMust && item(space.model.narrows, task) ? [task] : []));
  }

  /** Bound of whatever stands there with this cost and weight, however rested; `UNREACHABLE`: no end in reach. */
  lowest({ place, cell }: Standing, cost: number, weight: number): number {
    const value = i32(this.bounds.reach.values, place);
    if (value >= UNREACHABLE || weight < this.leastWeight) return UNREACHABLE;
    if (this.level === 'joint') return -this.stepsOf(weight);
    const { costToCome } = this.bounds;
    if (costToCome === null) return value;
    const rest = i32(costToCome, cell);
    return rest >= UNREACHABLE ? UNREACHABLE : cost + rest;
  }

  /** Whether the bound holds the sleep still needed. */
  get knowsSleep(): boolean {
    return this.bounds.need !== null;
  }

  /** The same bound for who has this S: the sleep still needed costs, or comes too late. */
  lowestRested(lowest: number, at: Standing, s: number): number {
    const { need } = this.bounds;
    if (need === null) return lowest;
    const cost = need.costFrom(at, s);
    if (cost >= UNREACHABLE) return UNREACHABLE;
    return this.level === 'cost' ? lowest + cost : lowest;
  }

  /** Bound of a label: the one written with it, and for joint weight what the tasks still to be done can keep. */
  lowestOf(store: LabelStore, label: number): number {
    const lowest = i32(store.lowest, label);
    if (this.level !== 'joint' || lowest >= UNREACHABLE) return lowest;
    return Math.max(lowest, -this.stepsOf(this.weightInReach(store, label)));
  }

  /** Writes the bound of the start. */
  writeLowestAtStart(store: LabelStore): void {
    const { cells } = this.space;
    const place = i32(cells.placeBase, 0);
    const isReached = i16(cells.leastLag, place) <= i16(cells.greatestLag, place);
    const at = { node: 0, atSlot: 0, lag: 0, place, cell: i32(cells.cellStart, place) };
    const lowest = isReached ? this.lowest(at, 0, i32(store.weight, 0)) : UNREACHABLE;
    store.lowest[0] = lowest >= UNREACHABLE ? UNREACHABLE : this.lowestRested(lowest, at, store.sOf(0));
  }

  /** Least of the best weights that the tasks still to be done can keep, each by itself. */
  weightInReach(store: LabelStore, label: number): number {
    const { masks } = this.space;
    let weight = i32(store.weight, label);
    for (const task of this.mustTasks)
      if (this.isLeft(i32(store.node, label), task))
        weight = Math.min(weight, masks.bestWeight(task, this.readySlot(store, label, task)) ?? weight);
    return weight;
  }

  /** Earliest instant at which a task may start, as far as the waits after its predecessors say. */
  private readySlot(store: LabelStore, label: number, task: number): number {
    const { model, nodes } = this.space;
    const { inertiaClasses, releases, problem } = model;
    const base = i32(store.node, label) * nodes.taskCount;
    let ready = i32(store.at, label);
    for (const { memoryIndex, earlierSlots, follows } of item(model.waitsOfTask, task)) {
      const release = item(releases, memoryIndex - inertiaClasses.length);
      const isOver = !follows || u16(nodes.unitsLeft, base + release.task) === 0;
      const over = isOver
        ? i32(store.memories, label * store.memoryCount + memoryIndex)
        : doneWith(release, i32(store.at, label));
      ready = Math.max(ready, over - earlierSlots);
    }
    return Math.min(ready, problem.slotCount);
  }

  /** Whether every task that must still be done has a start that leaves enough of the joint set. */
  canKeepWeight(store: LabelStore, label: number): boolean {
    const { masks } = this.space;
    const node = i32(store.node, label);
    for (const task of this.mustTasks) {
      if (!this.isLeft(node, task)) continue;
      const atSlot = this.readySlot(store, label, task);
      if (!masks.leavesEnough({ task, atSlot }, store.masks, label * store.wordCount, this.leastWeight)) return false;
    }
    return true;
  }

  /** Value of the plan that ends with a label; `UNREACHABLE`: not an end that counts. */
  valueOfEnd(store: LabelStore, label: number): number {
    const node = i32(store.node, label);
    const value = i32(this.bounds.endWorth, node);
    const { rest } = this.space.model.problem;
    if (value >= UNREACHABLE || i32(store.weight, label) < this.leastWeight) return UNREACHABLE;
    if (rest !== null && store.sOf(label) < rest.leastEndS) return UNREACHABLE;
    if (this.level === 'joint') return -this.stepsOf(i32(store.weight, label));
    return this.level === 'cost' ? costOfEnd(this.space, store, label) : value;
  }

  /** Takes over a better plan's value. */
  improve(value: number): void {
    this.best = value;
    const { stepWeight } = this.space.model.problem;
    if (this.level === 'joint') this.leastWeight = Math.max(this.leastWeight, (1 - value) * stepWeight);
  }

  stepsOf(weight: number): number {
    return Math.floor(weight / this.space.model.problem.stepWeight);
  }

  private isLeft(node: number, task: number): boolean {
    const { nodes } = this.space;
    return u16(nodes.unitsLeft, node * nodes.taskCount + task) > 0;
  }
}

/** Cost of the plan that ends with a label. */
function costOfEnd({ model, nodes }: Space, store: LabelStore, label: number): number {
  const { endCostPoints, slotCount } = model.problem;
  const cost = i32(store.cost, label);
  if (endCostPoints === null) return cost;
  return cost + i32(endCostPoints, i16(nodes.config, i32(store.node, label)) * (slotCount + 1) + i32(store.at, label));
}

/** Earliest instant at which work not yet begun, and the wait after it, can be over. */
function doneWith({ leastDurationSlots, longestWaitSlots }: Release, nowSlot: number): number {
  const doneSlot = nowSlot + leastDurationSlots;
  return doneSlot + waitSlotsAt(longestWaitSlots, doneSlot);
}
