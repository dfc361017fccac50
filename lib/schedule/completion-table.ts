import type { CellSpace } from './cells.ts';
import { sleeplessBefore } from './cells.ts';
import type { Model } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import type { OpenStarts } from './open-starts.ts';
import { START_COST, START_LOSS, START_STRIDE } from './open-starts.ts';
import { i16, i32, item, u16, u8 } from './typed-reads.ts';

/** No end can be reached. Costs stay well below it. */
export const UNREACHABLE = 1 << 30;

export interface CompletionRequest {
  readonly open: OpenStarts;
  /** 0 where a plan may end; `UNREACHABLE`: not an end that is asked for. */
  readonly endValue: Int32Array;
  /** Whether sleep costs anything on the way; else it is free, for another bound to count. */
  readonly countsSleep: boolean;
}

/**
 * Least cost still to come from every cell, by cell: a bound that never lies above the truth.
 *
 * Alertness, waits after a predecessor and the joint weight are left out; order, configs, splitting, time and lag are kept.
 * `into` is overwritten and returned.
 */
export function fillCompletionTable(
  space: { readonly model: Model; readonly nodes: NodeSpace; readonly cells: CellSpace },
  request: CompletionRequest,
  into: Int32Array,
): Int32Array {
  const filler = new CompletionFiller(space, request, into);
  filler.run();
  return into;
}

class CompletionFiller {
  private readonly model: Model;
  private readonly nodes: NodeSpace;
  private readonly cells: CellSpace;
  private readonly request: CompletionRequest;
  private readonly values: Int32Array;
  private readonly slotCount: number;
  private readonly mostLag: number;
  private readonly rowOfLag: Int32Array;
  private readonly quantumCost: number;
  private readonly sleeps: SleepArcs;

  constructor(
    space: { readonly model: Model; readonly nodes: NodeSpace; readonly cells: CellSpace },
    request: CompletionRequest,
    into: Int32Array,
  ) {
    this.model = space.model;
    this.nodes = space.nodes;
    this.cells = space.cells;
    this.request = request;
    this.values = into;
    this.slotCount = space.model.problem.slotCount;
    this.mostLag = space.model.problem.lagCount - 1;
    this.rowOfLag = space.model.problem.rowOfLag;
    this.quantumCost = space.model.problem.costPerQuantum;
    this.sleeps = sleepArcs(space.model);
  }

  run(): void {
    const { nodes, cells } = this;
    let started = cells.nodesByFirst.length;
    for (let t = this.slotCount; t >= 0; t--) {
      while (started > 0 && i32(nodes.firstSlot, i32(cells.nodesByFirst, started - 1)) > t) started--;
      for (let k = 0; k < started; k++) this.fillPlace(i32(cells.nodesByFirst, k), t);
    }
  }

  private fillPlace(node: number, t: number): void {
    const { nodes, cells } = this;
    const place = i32(cells.placeBase, node) + t;
    if (t > i32(nodes.lastSlot, node)) return;
    const least = i16(cells.leastLag, place);
    const greatest = i16(cells.greatestLag, place);
    if (least > greatest) return;
    const start = i32(cells.cellStart, place);
    this.values.fill(this.valueOfEnd(node, t), start, start + greatest - least + 1);
    if (t === this.slotCount) return;
    const from: From = { node, t, least, greatest, start };
    this.wait(from);
    for (let arc = i32(nodes.arcFrom, node); arc < i32(nodes.arcTo, node); arc++) this.work(from, arc);
  }

  private valueOfEnd(node: number, t: number): number {
    const value = i32(this.request.endValue, node);
    const { endCostPoints } = this.model.problem;
    if (value >= UNREACHABLE || endCostPoints === null) return value;
    return value + i32(endCostPoints, i16(this.nodes.config, node) * (this.slotCount + 1) + t);
  }

  private wait(from: From): void {
    const { node, t } = from;
    const next = i32(this.nodes.afterWait, node);
    if (next < 0) return;
    this.pass(from, next, { toSlot: t + 1, cost: 0 });
    // Where waiting changes nothing but the clock, a sleep is never cheaper than as many slots of waiting.
    if (this.sleeps.isLikeWaiting[i16(this.nodes.config, node)] === 1) return;
    for (const sleepSlots of this.sleeps.sleepSlots) {
      const woke = t + sleepSlots;
      const end = woke + this.sleeps.lookoutSlots;
      if (end > this.slotCount || i32(this.sleeps.mayNot, woke) > i32(this.sleeps.mayNot, t)) continue;
      const cost = this.request.countsSleep ? i32(this.sleeps.costBefore, woke) - i32(this.sleeps.costBefore, t) : 0;
      this.pass(from, next, { toSlot: end, cost });
    }
  }

  /** Lets time pass in the config at hand. */
  private pass(from: From, next: number, to: { readonly toSlot: number; readonly cost: number }): void {
    if (to.toSlot > i32(this.nodes.lastSlot, next)) return;
    const { values, mostLag } = this;
    const loss = this.waitLoss(from.node, from.t, to.toSlot);
    const cost = to.cost + loss * this.quantumCost;
    const place = i32(this.cells.placeBase, next) + to.toSlot;
    const nextStart = i32(this.cells.cellStart, place) - i16(this.cells.leastLag, place);
    for (let lag = from.least; lag <= from.greatest; lag++) {
      const value = i32(values, nextStart + clamp(lag + loss, mostLag));
      const cell = from.start + lag - from.least;
      if (value < UNREACHABLE && value + cost < i32(values, cell)) values[cell] = value + cost;
    }
  }

  private work(from: From, arc: number): void {
    const { nodes, request } = this;
    const choiceIndex = i32(nodes.arcChoice, arc);
    const begin = from.t + i32(nodes.arcChangeSlots, arc);
    if (begin >= this.slotCount || u8(item(request.open.isOpen, choiceIndex), begin) === 0) return;
    const next = i32(nodes.arcNext, arc);
    this.workAtLags(from, {
      starts: item(request.open.starts, choiceIndex),
      begin,
      firstRow: (begin - i32(request.open.firstSlot, choiceIndex)) * this.model.problem.rowCount,
      changeQuanta: this.waitLoss(from.node, from.t, begin),
      nextBase: i32(this.cells.placeBase, next),
      lastSlot: i32(nodes.lastSlot, next),
      finish: this.finishCosts(next, choiceIndex),
    });
  }

  private workAtLags(from: From, work: Worked): void {
    const { values, mostLag, rowOfLag } = this;
    const { starts, begin, firstRow, changeQuanta, nextBase } = work;
    const { cellStart, leastLag } = this.cells;
    const changeCost = changeQuanta * this.quantumCost;
    for (let lag = from.least; lag <= from.greatest; lag++) {
      const beginLag = clamp(lag + changeQuanta, mostLag);
      const start = (firstRow + i32(rowOfLag, beginLag)) * START_STRIDE;
      const end = begin + i32(starts, start);
      if (end === begin || end > work.lastSlot) continue;
      const place = nextBase + end;
      const endLag = clamp(beginLag + i32(starts, start + START_LOSS), mostLag);
      const value = i32(values, i32(cellStart, place) + endLag - i16(leastLag, place));
      if (value >= UNREACHABLE) continue;
      const cost = changeCost + i32(starts, start + START_COST) + finishCost(work.finish, end);
      const cell = from.start + lag - from.least;
      if (value + cost < i32(values, cell)) values[cell] = value + cost;
    }
  }

  private finishCosts(next: number, choiceIndex: number): Int32Array | null {
    const { task } = item(this.model.choices, choiceIndex);
    const isFinished = u16(this.nodes.unitsLeft, next * this.nodes.taskCount + task) === 0;
    return isFinished ? item(this.model.problem.tasks, task).finishCostPoints : null;
  }

  private waitLoss(node: number, fromSlot: number, toSlot: number): number {
    const { configs } = this.model.problem;
    const base = i16(this.nodes.config, node) * (this.slotCount + 1);
    return i32(configs.waitQuanta, base + toSlot) - i32(configs.waitQuanta, base + fromSlot);
  }
}

interface From {
  readonly node: number;
  readonly t: number;
  readonly least: number;
  readonly greatest: number;
  readonly start: number;
}

interface Worked {
  readonly starts: Int32Array;
  readonly begin: number;
  readonly firstRow: number;
  readonly changeQuanta: number;
  readonly nextBase: number;
  readonly lastSlot: number;
  readonly finish: Int32Array | null;
}

const finishCost = (costs: Int32Array | null, endSlot: number): number => (costs === null ? 0 : i32(costs, endSlot));

const clamp = (lag: number, most: number): number => (lag < 0 ? 0 : lag > most ? most : lag);

interface SleepArcs {
  readonly sleepSlots: readonly number[];
  readonly lookoutSlots: number;
  readonly mayNot: Int32Array;
  readonly costBefore: Int32Array;
  /** By config: 1 when a sleep moves config and lag just as waiting does. */
  readonly isLikeWaiting: Uint8Array;
}

function sleepArcs(model: Model): SleepArcs {
  const { slotCount, configs, rest } = model.problem;
  const costBefore = new Int32Array(slotCount + 1);
  for (let t = 0; t < slotCount; t++) costBefore[t + 1] = i32(costBefore, t) + (rest?.sleepCostPoints[t] ?? 0);
  return {
    sleepSlots: rest?.sleepSlots ?? [],
    lookoutSlots: rest?.lookoutSlots ?? 0,
    mayNot: sleeplessBefore(model),
    costBefore,
    isLikeWaiting: Uint8Array.from({ length: configs.count }, (_, config) =>
      sleepsLikeWaiting(model, config) ? 1 : 0,
    ),
  };
}

function sleepsLikeWaiting({ problem }: Model, config: number): boolean {
  const { configs, slotCount } = problem;
  if (configs.afterWait[config] !== config) return false;
  const base = config * (slotCount + 1);
  for (let t = 0; t < slotCount; t++)
    if (i32(configs.waitQuanta, base + t + 1) < i32(configs.waitQuanta, base + t)) return false;
  return true;
}
