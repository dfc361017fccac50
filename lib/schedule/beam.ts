import type { Aim } from './aim.ts';
import type { LabelStore } from './label-store.ts';
import type { Model } from './model.ts';
import { f64, i32 } from './typed-reads.ts';

/**
 * How promising labels of one instant are, greatest first: bound, then weight, then work done and rest in store. The
 * factors rank a scenario in thirty above one task done, and that above some points of S.
 */
const BOUND_SHARE_POINTS = 30_000;
const WEIGHT_SHARE_POINTS = 300;
const DONE_SHARE_POINTS = 300;
const S_POINTS = 5;
/** In the cost level the bound ranks, with S at what it costs to sleep it where the bound knows nothing of it; the rest breaks ties. */
const COST_POINTS = 1000;

export class Ranking {
  private readonly model: Model;
  private readonly aim: Aim;
  private readonly store: LabelStore;
  private readonly doneShare: Float64Array;
  private readonly costOfS: number;

  constructor(model: Model, aim: Aim, store: LabelStore, doneShare: Float64Array) {
    this.model = model;
    this.aim = aim;
    this.store = store;
    this.doneShare = doneShare;
    this.costOfS = aim.knowsSleep ? 0 : costOfS(model);
  }

  /** The most promising labels first come first; those left out are the rest of the list. */
  choose(
    labels: readonly number[],
    width: number,
  ): { readonly kept: readonly number[]; readonly dropped: readonly number[] } {
    const points = Float64Array.from(labels, (label) => this.points(label));
    const least = f64(points.toSorted(), labels.length - width);
    const kept: number[] = [];
    const dropped: number[] = [];
    let ties = width - points.reduce((count, value) => count + (value > least ? 1 : 0), 0);
    labels.forEach((label, k) => {
      const value = f64(points, k);
      const isKept = value > least || (value === least && ties-- > 0);
      (isKept ? kept : dropped).push(label);
    });
    return { kept, dropped };
  }

  private points(label: number): number {
    const { store, aim } = this;
    const { totalWeight } = this.model.scale;
    const weight = i32(store.weight, label) / totalWeight;
    const rested = S_POINTS * store.sOf(label);
    const done = DONE_SHARE_POINTS * f64(this.doneShare, i32(store.node, label));
    if (aim.level === 'cost')
      return (
        COST_POINTS * (this.costOfS * store.sOf(label) - aim.lowestOf(store, label)) +
        WEIGHT_SHARE_POINTS * weight +
        rested
      );
    const inReach = aim.weightInReach(store, label) / totalWeight;
    const bound = aim.level === 'joint' ? 0 : -1e9 * aim.lowestOf(store, label);
    return bound + BOUND_SHARE_POINTS * inReach + WEIGHT_SHARE_POINTS * weight + done + rested;
  }
}

/**
 * What a point of S costs when slept for. Where the bound of a label says nothing of the sleep it still needs, without this
 * the beam would fill with the sleepless, who come to nothing.
 */
function costOfS({ problem }: Model): number {
  const { rest, slotCount } = problem;
  if (rest === null || rest.sleepSlots.length === 0) return 0;
  const slots = Math.max(...rest.sleepSlots);
  const s = Math.max(rest.startS, rest.leastEndS);
  const gained = rest.asleepS(s, slots) - rest.awakeS(s, slots);
  const costPerSlot = rest.sleepCostPoints.reduce((sum, cost) => sum + cost, 0) / slotCount;
  return gained > 0 ? (costPerSlot * slots) / gained : 0;
}
