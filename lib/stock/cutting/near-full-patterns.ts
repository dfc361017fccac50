import { ReachTable } from './reach-table.ts';
import type { WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';

/**
 * What everything costs against the best thinkable: waste by its length, a piece of a kind that is not worth its length, a
 * piece left out that is. A plan is heavy enough when its costs add up to no more than `allowance`.
 *
 * All in whole numbers of one unit (a Lagrangian relaxation of the length of the bars, times the size of the kind whose
 * worth by length is critical).
 */
export interface Costs {
  readonly perWastePoints: number;
  /** The same by capacity; 0 where waste does not count, though it cannot be more than elsewhere. */
  readonly perWasteByCapacity: readonly number[];
  /** Of making one piece of each kind, 0 or more. */
  readonly making: readonly number[];
  /** Of leaving out one piece of each kind, 0 or more; infinite where all must be made. */
  readonly leavingOut: readonly number[];
  readonly allowancePoints: number;
  /** Length that bars can waste together, and so any one of them. */
  readonly mostWasteQuanta: number;
}

/** A way to fill a bar that is not ruled out by its cost. */
export interface NearFullPattern {
  readonly capacityIndex: number;
  /** Kinds in it and how many of each. */
  readonly takes: readonly (readonly [kindIndex: number, count: number])[];
  readonly costPoints: number;
}

const total = (problem: WholeProblem): number =>
  problem.capacities.reduce((sum, { roomQuanta, count }) => sum + roomQuanta * count, 0);

/** Costs of a problem whose pieces made must weigh all but `mostLossWeight`. */
export function costsOf(problem: WholeProblem, mostLossWeight: number): Costs {
  const { sizesQuanta, counts, valueWeights } = problem;
  if (mostLossWeight === 0) {
    const load = sizesQuanta.reduce((sum, size, kindIndex) => sum + size * (counts[kindIndex] ?? 0), 0);
    return {
      perWastePoints: 1,
      // All bars together waste the same in any plan: only when one does not count can plans be told apart.
      perWasteByCapacity: problem.capacities.map(({ isSpare }) => (isSpare ? 0 : 1)),
      making: sizesQuanta.map(() => 0),
      leavingOut: sizesQuanta.map(() => Infinity),
      allowancePoints: total(problem) - load,
      mostWasteQuanta: total(problem) - load,
    };
  }
  const critical = criticalKind(problem);
  const [worth, size] = [valueWeights[critical] ?? 0, sizesQuanta[critical] ?? 1];
  const gains = sizesQuanta.map((own, kindIndex) => (valueWeights[kindIndex] ?? 0) * size - worth * own);
  const best = gains.reduce(
    (sum, gain, kindIndex) => sum + Math.max(0, gain) * (counts[kindIndex] ?? 0),
    worth * total(problem),
  );
  const wanted =
    valueWeights.reduce((sum, value, kindIndex) => sum + value * (counts[kindIndex] ?? 0), 0) - mostLossWeight;
  return {
    perWastePoints: worth,
    perWasteByCapacity: problem.capacities.map(() => worth),
    making: gains.map((gain) => Math.max(0, -gain)),
    leavingOut: gains.map((gain) => Math.max(0, gain)),
    allowancePoints: best - wanted * size,
    mostWasteQuanta: total(problem) - problem.leastLoadQuanta,
  };
}

/** The kind in which the bars are full when pieces are taken by worth for length. */
function criticalKind({ sizesQuanta, counts, valueWeights, capacities }: WholeProblem): number {
  let room = capacities.reduce((sum, { roomQuanta, count }) => sum + roomQuanta * count, 0);
  const worth = (kindIndex: number): number => (valueWeights[kindIndex] ?? 0) / (sizesQuanta[kindIndex] ?? 1);
  const order = [...sizesQuanta.keys()].toSorted((a, b) => worth(b) - worth(a));
  for (const kindIndex of order) {
    room -= (sizesQuanta[kindIndex] ?? 0) * (counts[kindIndex] ?? 0);
    if (room < 0) return kindIndex;
  }
  return order.at(-1) ?? 0;
}

/** Every filling that the allowance does not rule out; null where there are more than `mostCount`. */
export function nearFullPatterns(
  problem: WholeProblem,
  costs: Costs,
  mostCount: number,
  budget: WorkBudget,
): readonly NearFullPattern[] | null {
  const listing = new PatternListing(problem, costs, mostCount, budget);
  for (const [capacityIndex, { count }] of problem.capacities.entries())
    if (count > 0 && !listing.list(capacityIndex)) return null;
  return listing.patterns;
}

class PatternListing {
  readonly patterns: NearFullPattern[] = [];
  private readonly sizes: readonly number[];
  private readonly counts: readonly number[];
  private readonly rooms: readonly number[];
  private readonly costs: Costs;
  private readonly mostCount: number;
  private readonly budget: WorkBudget;
  private readonly reach: ReachTable;
  private readonly takes: (readonly [number, number])[] = [];

  constructor(problem: WholeProblem, costs: Costs, mostCount: number, budget: WorkBudget) {
    this.sizes = problem.sizesQuanta;
    this.counts = problem.counts.map((count, kindIndex) =>
      (costs.making[kindIndex] ?? 0) > costs.allowancePoints ? 0 : count,
    );
    this.rooms = problem.capacities.map(({ roomQuanta }) => roomQuanta);
    this.costs = costs;
    this.mostCount = mostCount;
    this.budget = budget;
    this.reach = new ReachTable(this.sizes, this.counts, Math.max(0, ...this.rooms));
  }

  /** All fillings of one capacity; false when there are too many. */
  list(capacityIndex: number): boolean {
    return this.fillUp(capacityIndex, 0, this.rooms[capacityIndex] ?? 0, 0);
  }

  private fillUp(capacityIndex: number, fromIndex: number, roomQuanta: number, costPoints: number): boolean {
    if (!this.budget.spend()) return false;
    let kindIndex = fromIndex;
    while (kindIndex < this.sizes.length && !this.canTake(kindIndex, roomQuanta)) kindIndex++;
    const leastWasteQuanta = roomQuanta - this.reach.greatestQuanta(kindIndex, roomQuanta);
    if (this.isRuledOut(leastWasteQuanta, costPoints)) return true;
    if (kindIndex >= this.sizes.length) return this.add(capacityIndex, roomQuanta, costPoints);
    const [size, making] = [this.sizes[kindIndex] ?? 1, this.costs.making[kindIndex] ?? 0];
    for (let count = Math.min(this.counts[kindIndex] ?? 0, Math.floor(roomQuanta / size)); count >= 0; count--) {
      if (count > 0) this.takes.push([kindIndex, count]);
      const goesOn = this.fillUp(capacityIndex, kindIndex + 1, roomQuanta - count * size, costPoints + count * making);
      if (count > 0) this.takes.pop();
      if (!goesOn) return false;
    }
    return true;
  }

  private canTake(kindIndex: number, roomQuanta: number): boolean {
    return (this.counts[kindIndex] ?? 0) > 0 && (this.sizes[kindIndex] ?? 0) <= roomQuanta;
  }

  private isRuledOut(wasteQuanta: number, costPoints: number): boolean {
    const { mostWasteQuanta, perWastePoints, allowancePoints } = this.costs;
    return wasteQuanta > mostWasteQuanta || costPoints + wasteQuanta * perWastePoints > allowancePoints;
  }

  private add(capacityIndex: number, wasteQuanta: number, costPoints: number): boolean {
    const perWaste = this.costs.perWasteByCapacity[capacityIndex] ?? 0;
    this.patterns.push({ capacityIndex, takes: [...this.takes], costPoints: costPoints + wasteQuanta * perWaste });
    return this.patterns.length <= this.mostCount;
  }
}
