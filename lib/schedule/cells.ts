import type { Model } from './model.ts';
import type { NodeSpace } from './nodes.ts';
import { MOST_PLACES } from './nodes.ts';
import type { OpenStarts } from './open-starts.ts';
import { i16, i32, item, u8 } from './typed-reads.ts';

/** Most (instant, node, lag) cells of one space: a table of them takes four octets each. */
const MOST_CELLS = 30_000_000;

/**
 * The cells of the search: for each node its interval of instants, for each instant in it an interval of lags.
 *
 * A *place* is a node at an instant: `placeBase[node] + t`. The cells of an instant lie together.
 */
export interface CellSpace {
  readonly placeBase: Int32Array;
  /** Lags of a place; least above greatest: not reachable. */
  readonly leastLag: Int16Array;
  readonly greatestLag: Int16Array;
  /** Cell of the least lag of a place. */
  readonly cellStart: Int32Array;
  /** First cell of an instant; one entry more than instants. */
  readonly instantStart: Int32Array;
  readonly cellCount: number;
  readonly placeCount: number;
  readonly mostCellsOfInstant: number;
  /** 1 for nodes reached at some instant. */
  readonly isReached: Uint8Array;
  /** Nodes by first instant. */
  readonly nodesByFirst: Int32Array;
}

const UNREACHED_LEAST = 32_767;
const UNREACHED_GREATEST = -1;

/** Goes forward in time over all work, waiting and sleep; alertness and joint weight are left out. null: too many cells. */
export function findCells(model: Model, nodes: NodeSpace, open: OpenStarts): CellSpace | null {
  const placeBase = new Int32Array(nodes.nodeCount);
  let placeCount = 0;
  for (let node = 0; node < nodes.nodeCount; node++) {
    placeBase[node] = placeCount - i32(nodes.firstSlot, node);
    placeCount += Math.max(0, i32(nodes.lastSlot, node) - i32(nodes.firstSlot, node) + 1);
    if (placeCount > MOST_PLACES) return null;
  }
  const nodesByFirst = Int32Array.from({ length: nodes.nodeCount }, (_, node) => node).toSorted(
    (a, b) => i32(nodes.firstSlot, a) - i32(nodes.firstSlot, b) || a - b,
  );
  const spread = new LagSpread(model, nodes, { placeBase, placeCount });
  return spread.run(open, nodesByFirst);
}

class LagSpread {
  private readonly model: Model;
  private readonly nodes: NodeSpace;
  private readonly placeBase: Int32Array;
  private readonly placeCount: number;
  private readonly leastLag: Int16Array;
  private readonly greatestLag: Int16Array;
  private readonly sleepSpans: readonly { readonly sleep: number; readonly whole: number }[];
  private readonly mayNotSleep: Int32Array;

  constructor(model: Model, nodes: NodeSpace, places: { placeBase: Int32Array; placeCount: number }) {
    this.model = model;
    this.nodes = nodes;
    this.placeBase = places.placeBase;
    this.placeCount = places.placeCount;
    this.leastLag = new Int16Array(places.placeCount).fill(UNREACHED_LEAST);
    this.greatestLag = new Int16Array(places.placeCount).fill(UNREACHED_GREATEST);
    const { rest } = model.problem;
    this.sleepSpans = (rest?.sleepSlots ?? []).map((sleep) => ({ sleep, whole: sleep + (rest?.lookoutSlots ?? 0) }));
    this.mayNotSleep = sleeplessBefore(model);
  }

  run(open: OpenStarts, nodesByFirst: Int32Array): CellSpace | null {
    const { slotCount } = this.model.problem;
    const cellStart = new Int32Array(this.placeCount);
    const instantStart = new Int32Array(slotCount + 2);
    const isReached = new Uint8Array(this.nodes.nodeCount);
    let [cellCount, most, started] = [0, 0, 0];
    this.reach(0, 0, 0, 0);
    for (let t = 0; t <= slotCount; t++) {
      instantStart[t] = cellCount;
      while (started < nodesByFirst.length && i32(this.nodes.firstSlot, i32(nodesByFirst, started)) <= t) started++;
      for (let k = 0; k < started; k++) {
        const node = i32(nodesByFirst, k);
        const place = i32(this.placeBase, node) + t;
        if (t > i32(this.nodes.lastSlot, node) || i16(this.leastLag, place) > i16(this.greatestLag, place)) continue;
        isReached[node] = 1;
        cellStart[place] = cellCount;
        cellCount += i16(this.greatestLag, place) - i16(this.leastLag, place) + 1;
        if (t < slotCount) this.leave(node, t, open);
      }
      if (cellCount > MOST_CELLS) return null;
      most = Math.max(most, cellCount - i32(instantStart, t));
    }
    instantStart[slotCount + 1] = cellCount;
    return {
      placeBase: this.placeBase,
      leastLag: this.leastLag,
      greatestLag: this.greatestLag,
      cellStart,
      instantStart,
      cellCount,
      placeCount: this.placeCount,
      mostCellsOfInstant: most,
      isReached,
      nodesByFirst,
    };
  }

  private leave(node: number, t: number, open: OpenStarts): void {
    const place = i32(this.placeBase, node) + t;
    const least = i16(this.leastLag, place);
    const greatest = i16(this.greatestLag, place);
    const next = i32(this.nodes.afterWait, node);
    if (next >= 0) {
      const loss = this.waitLoss(node, t, t + 1);
      this.reach(next, t + 1, least + loss, greatest + loss);
    }
    for (const { sleep, whole } of this.sleepSpans) {
      if (next < 0 || t + whole > this.model.problem.slotCount) continue;
      if (i32(this.mayNotSleep, t + sleep) > i32(this.mayNotSleep, t)) continue;
      const loss = this.waitLoss(node, t, t + whole);
      this.reach(next, t + whole, least + loss, greatest + loss);
    }
    for (let arc = i32(this.nodes.arcFrom, node); arc < i32(this.nodes.arcTo, node); arc++) {
      const begin = t + i32(this.nodes.arcChangeSlots, arc);
      const choice = i32(this.nodes.arcChoice, arc);
      if (begin >= this.model.problem.slotCount || u8(item(open.isOpen, choice), begin) === 0) continue;
      const loss = this.waitLoss(node, t, begin);
      this.work(arc, begin, this.clamped(least + loss), this.clamped(greatest + loss));
    }
  }

  private work(arc: number, begin: number, least: number, greatest: number): void {
    const outcome = item(this.nodes.outcomes, i32(this.nodes.arcChoice, arc));
    const next = i32(this.nodes.arcNext, arc);
    for (let k = i32(outcome.from, begin); k < i32(outcome.from, begin + 1); k++)
      this.reach(
        next,
        begin + item(outcome.durationSlots, k),
        least + item(outcome.leastLoss, k),
        greatest + item(outcome.greatestLoss, k),
      );
  }

  private waitLoss(node: number, fromSlot: number, toSlot: number): number {
    const { slotCount, configs } = this.model.problem;
    const base = i16(this.nodes.config, node) * (slotCount + 1);
    return i32(configs.waitQuanta, base + toSlot) - i32(configs.waitQuanta, base + fromSlot);
  }

  private reach(node: number, atSlot: number, least: number, greatest: number): void {
    if (atSlot > i32(this.nodes.lastSlot, node)) return;
    const place = i32(this.placeBase, node) + atSlot;
    const leastLag = this.clamped(least);
    const greatestLag = this.clamped(greatest);
    if (leastLag < i16(this.leastLag, place)) this.leastLag[place] = leastLag;
    if (greatestLag > i16(this.greatestLag, place)) this.greatestLag[place] = greatestLag;
  }

  private clamped(lag: number): number {
    return Math.min(this.model.problem.lagCount - 1, Math.max(0, lag));
  }
}

/** Slots before an instant in which sleep is not allowed, summed; all zero without a rest model. */
export function sleeplessBefore({ problem }: Model): Int32Array {
  const sums = new Int32Array(problem.slotCount + 1);
  for (let t = 0; t < problem.slotCount; t++)
    sums[t + 1] = i32(sums, t) + (problem.rest === null || problem.rest.sleepAllowed[t] === 1 ? 0 : 1);
  return sums;
}
