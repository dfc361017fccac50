import { ReachTable } from './reach-table.ts';
import type { FilledBar, WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';
import type { PatternBound } from './pattern-bound.ts';

const MOST_REMEMBERED = 200_000;

/**
 * Depth-first search bar by bar: the largest piece left goes into a bar, which is then filled up in every way that could
 * matter; or no more pieces of its kind are made, if the loss is allowed.
 *
 * A filling matters only when no piece left would still go in, and when no piece in it could be exchanged for a larger one
 * that is worth no less (dominance of Martello and Toth, Knapsack Problems, 1990, chapter 8). What a filling wastes is held
 * against what may be wasted in all, by length and by the prices of a relaxation.
 */
export class WholeSearch {
  private readonly sizes: readonly number[];
  private readonly values: readonly number[];
  private readonly rooms: readonly number[];
  private readonly left: Int32Array;
  private readonly barsLeft: Int32Array;
  private readonly reach: ReachTable;
  private readonly barOrder: readonly number[];
  private readonly kindsByDensity: readonly number[];
  private readonly failed = new Map<string, number>();
  private readonly filled: FilledBar[] = [];
  private readonly budget: WorkBudget;
  private readonly prices: PatternBound | null;
  private readonly keepsAll: boolean;
  private slack: number;
  private wasteLeft: number;

  constructor(problem: WholeProblem, keepsAll: boolean, prices: PatternBound | null, budget: WorkBudget) {
    this.sizes = problem.sizesQuanta;
    this.values = problem.valueWeights;
    this.left = Int32Array.from(problem.counts);
    this.barsLeft = Int32Array.from(problem.capacities.map(({ count }) => count));
    const longestQuanta = Math.max(0, ...problem.capacities.map(({ roomQuanta }) => roomQuanta));
    this.reach = new ReachTable(this.sizes, problem.counts, longestQuanta);
    // What no choice of pieces fills is no room.
    this.rooms = problem.capacities.map(({ roomQuanta }) => this.reach.greatestQuanta(0, roomQuanta));
    this.barOrder = [...this.rooms.keys()].toSorted((a, b) => (this.rooms[a] ?? 0) - (this.rooms[b] ?? 0));
    const density = (kindIndex: number): number =>
      (this.sizes[kindIndex] ?? 0) / Math.max(1, this.values[kindIndex] ?? 1);
    this.kindsByDensity = [...this.sizes.keys()].toSorted((a, b) => density(b) - density(a));
    this.budget = budget;
    this.keepsAll = keepsAll;
    this.prices = keepsAll ? prices : null;
    this.slack = this.prices?.slackWeight ?? 0;
    const roomQuanta = problem.capacities.reduce(
      (sum, { count }, barIndex) => sum + count * (this.rooms[barIndex] ?? 0),
      0,
    );
    this.wasteLeft = roomQuanta - problem.leastLoadQuanta;
  }

  /** Bars filled so that no more than this weight is left out; null when there is none, or work ran out. */
  find(mostLossWeight: number): readonly FilledBar[] | null {
    return this.place(mostLossWeight) ? this.filled : null;
  }

  private place(lossLeftWeight: number): boolean {
    if (!this.budget.spend()) return false;
    const leadIndex = this.left.findIndex((count) => count > 0);
    if (leadIndex < 0) return true;
    const wasteQuanta = Math.min(this.wasteLeft, this.wasteAllowedQuanta(lossLeftWeight));
    if (wasteQuanta < 0 || this.slack < 0) return false;
    const key = String.fromCharCode(...this.left, ...this.barsLeft);
    if ((this.failed.get(key) ?? -1) >= lossLeftWeight) return false;
    if (this.placeInBars(leadIndex, lossLeftWeight, wasteQuanta) || this.leaveOut(leadIndex, lossLeftWeight))
      return true;
    if (!this.budget.isSpent && this.failed.size < MOST_REMEMBERED) this.failed.set(key, lossLeftWeight);
    return false;
  }

  private placeInBars(leadIndex: number, lossLeftWeight: number, wasteQuanta: number): boolean {
    for (const barIndex of this.barOrder) {
      const room = this.rooms[barIndex] ?? 0;
      if ((this.barsLeft[barIndex] ?? 0) === 0 || room < (this.sizes[leadIndex] ?? 0)) continue;
      this.barsLeft[barIndex] = (this.barsLeft[barIndex] ?? 0) - 1;
      const filling = { barIndex, leadIndex, counts: new Int32Array(this.sizes.length), lossLeftWeight, wasteQuanta };
      if (this.fillUp(filling, leadIndex, room)) return true;
      this.barsLeft[barIndex] = (this.barsLeft[barIndex] ?? 0) + 1;
      if (this.budget.isSpent) return false;
    }
    return false;
  }

  private leaveOut(leadIndex: number, lossLeftWeight: number): boolean {
    const count = this.left[leadIndex] ?? 0;
    const lossWeight = count * (this.values[leadIndex] ?? 0);
    if (lossWeight > lossLeftWeight) return false;
    this.left[leadIndex] = 0;
    if (this.place(lossLeftWeight - lossWeight)) return true;
    this.left[leadIndex] = count;
    return false;
  }

  /** Goes through the kinds from `from` on, as many as possible first; a full bar goes on with the next bar. */
  private fillUp(filling: Filling, fromIndex: number, roomQuanta: number): boolean {
    if (!this.budget.spend()) return false;
    let kindIndex = fromIndex;
    while (
      kindIndex < this.sizes.length &&
      ((this.left[kindIndex] ?? 0) === 0 || (this.sizes[kindIndex] ?? 0) > roomQuanta)
    )
      kindIndex++;
    if (roomQuanta - this.reach.greatestQuanta(kindIndex, roomQuanta) > filling.wasteQuanta) return false;
    if (kindIndex >= this.sizes.length) return this.close(filling, roomQuanta);
    const size = this.sizes[kindIndex] ?? 0;
    const available = this.left[kindIndex] ?? 0;
    const least = kindIndex === filling.leadIndex ? 1 : 0;
    for (let count = Math.min(available, Math.floor(roomQuanta / size)); count >= least; count--) {
      this.left[kindIndex] = available - count;
      filling.counts[kindIndex] = count;
      if (this.fillUp(filling, kindIndex + 1, roomQuanta - count * size)) return true;
    }
    this.left[kindIndex] = available;
    filling.counts[kindIndex] = 0;
    return false;
  }

  private close(filling: Filling, roomQuanta: number): boolean {
    if (roomQuanta > filling.wasteQuanta || this.couldHoldMore(filling.counts, roomQuanta)) return false;
    const slackBefore = this.slack;
    this.slack -= this.worthLost(filling);
    this.wasteLeft -= roomQuanta;
    if (this.slack >= 0) {
      this.filled.push({ capacityIndex: filling.barIndex, counts: [...filling.counts] });
      if (this.place(filling.lossLeftWeight)) return true;
      this.filled.pop();
    }
    this.slack = slackBefore;
    this.wasteLeft += roomQuanta;
    return false;
  }

  private worthLost({ barIndex, counts }: Filling): number {
    if (this.prices === null) return 0;
    const { barPriceWeights, kindPriceWeights } = this.prices;
    return counts.reduce(
      (lost, count, kindIndex) => lost - count * (kindPriceWeights[kindIndex] ?? 0),
      barPriceWeights[barIndex] ?? 0,
    );
  }

  /** Whether a piece left goes in still, or a larger one in place of one that is in. */
  private couldHoldMore(counts: Int32Array, roomQuanta: number): boolean {
    let smallestIndex = -1;
    for (let kindIndex = this.sizes.length - 1; kindIndex >= 0; kindIndex--) {
      if ((this.left[kindIndex] ?? 0) > 0) {
        const size = this.sizes[kindIndex] ?? 0;
        if (size <= roomQuanta || this.couldReplace(kindIndex, smallestIndex, counts, roomQuanta)) return true;
      }
      if ((counts[kindIndex] ?? 0) > 0 && smallestIndex < 0) smallestIndex = kindIndex;
    }
    return false;
  }

  private couldReplace(kindIndex: number, smallestIndex: number, counts: Int32Array, roomQuanta: number): boolean {
    const size = this.sizes[kindIndex] ?? 0;
    for (let other = kindIndex + 1; other <= smallestIndex; other++) {
      const otherSize = this.sizes[other] ?? 0;
      if (size - otherSize > roomQuanta) return false;
      const isWorthIt = this.keepsAll || (this.values[kindIndex] ?? 0) >= (this.values[other] ?? 0);
      if ((counts[other] ?? 0) > 0 && otherSize < size && isWorthIt) return true;
    }
    return false;
  }

  /** Length that may stay unused in all: what the bars hold at best, less the pieces, and what may be left out of them. */
  private wasteAllowedQuanta(lossLeftWeight: number): number {
    let wasteQuanta = 0;
    for (const [barIndex, count] of this.barsLeft.entries()) wasteQuanta += count * (this.rooms[barIndex] ?? 0);
    for (const [kindIndex, count] of this.left.entries()) wasteQuanta -= count * (this.sizes[kindIndex] ?? 0);
    return wasteQuanta + this.mostLeftOutQuanta(lossLeftWeight);
  }

  private mostLeftOutQuanta(lossLeftWeight: number): number {
    let [lossWeight, quanta] = [lossLeftWeight, 0];
    for (const kindIndex of this.kindsByDensity) {
      if (lossWeight <= 0) break;
      const [count, value] = [this.left[kindIndex] ?? 0, this.values[kindIndex] ?? 0];
      if (count === 0) continue;
      const takenCount = value === 0 ? count : Math.min(count, lossWeight / value);
      quanta += takenCount * (this.sizes[kindIndex] ?? 0);
      lossWeight -= takenCount * value;
    }
    return quanta;
  }
}

interface Filling {
  readonly barIndex: number;
  readonly leadIndex: number;
  readonly counts: Int32Array;
  readonly lossLeftWeight: number;
  readonly wasteQuanta: number;
}
