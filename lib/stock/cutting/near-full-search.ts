import type { NearFullPattern } from './near-full-patterns.ts';
import type { PriceSystem } from './near-full-prices.ts';
import type { FilledBar, WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';

/** Patterns looked at that count as one step of work. */
const PATTERNS_PER_STEP = 40;
const MOST_REMEMBERED = 200_000;

/** What may still be spent, by each system of prices. */
type Allowances = readonly number[];

/**
 * Packs bars that can have but little waste: an exact cover of the pieces by patterns that are nearly full.
 *
 * Branches where the choice is smallest: on the kind, or the bar, that the fewest patterns left could serve. What every
 * piece left must cost at the least, shared over its bar by length, is held against what may still be spent. The first
 * system of prices is that of the costs: a cover within its allowance is an answer; a second one only prunes.
 */
export class NearFullSearch {
  private readonly sizes: readonly number[];
  private readonly rooms: readonly number[];
  private readonly values: readonly number[];
  private readonly patterns: readonly NearFullPattern[];
  private readonly systems: readonly PriceSystem[];
  private readonly budget: WorkBudget;
  private readonly left: number[];
  private readonly barsLeft: number[];
  private readonly chosen: NearFullPattern[] = [];
  private readonly failed = new Map<string, Allowances>();
  private readonly repeats: boolean;
  private readonly keepsAll: boolean;

  constructor(
    problem: WholeProblem,
    patterns: readonly NearFullPattern[],
    systems: readonly [PriceSystem, ...PriceSystem[]],
    budget: WorkBudget,
  ) {
    this.sizes = problem.sizesQuanta;
    this.rooms = problem.capacities.map(({ roomQuanta }) => roomQuanta);
    this.values = problem.valueWeights;
    this.patterns = patterns;
    this.systems = systems;
    this.budget = budget;
    this.left = [...problem.counts];
    this.barsLeft = problem.capacities.map(({ count }) => count);
    this.repeats = this.left.some((count) => count > 1) || this.barsLeft.some((count) => count > 1);
    this.keepsAll = systems[0].leavingOut.every((costPoints) => costPoints === Infinity);
  }

  /** Bars filled within the allowance; null when there are none, or work ran out. */
  find(): readonly FilledBar[] | null {
    const cheapness = (index: number): number => this.costs(index).reduce((sum, costPoints) => sum + costPoints, 0);
    const all = this.patterns.map((_, index) => index).toSorted((a, b) => cheapness(a) - cheapness(b));
    if (
      !this.cover(
        all,
        this.systems.map(({ allowancePoints }) => allowancePoints),
      )
    )
      return null;
    return this.chosen.map(({ capacityIndex, takes }) => {
      const counts = this.sizes.map(() => 0);
      for (const [kindIndex, count] of takes) counts[kindIndex] = count;
      return { capacityIndex, counts };
    });
  }

  /** Of a pattern, by each system. */
  private costs(index: number): readonly number[] {
    return this.systems.map(({ patternCosts }) => patternCosts[index] ?? 0);
  }

  private cover(before: readonly number[], allowances: Allowances): boolean {
    if (!this.budget.spend(1 + Math.floor(before.length / PATTERNS_PER_STEP))) return false;
    const active = before.filter((index) => this.isOpen(index, allowances));
    const choice = this.smallestChoice(active, allowances);
    if (choice === 'none') return this.isDone(allowances);
    if (choice === 'dead') return false;
    const key = this.repeats ? `${this.left.join()} ${this.barsLeft.join()}` : null;
    if (
      key !== null &&
      this.failed.get(key)?.every((allowancePoints, of) => allowancePoints >= (allowances[of] ?? 0)) === true
    )
      return false;
    const found =
      choice.kindIndex === null
        ? this.fillBar(choice.barIndex, active, allowances)
        : this.serve(choice.kindIndex, active, allowances);
    if (!found && key !== null && !this.budget.isSpent && this.failed.size < MOST_REMEMBERED)
      this.failed.set(key, allowances);
    return found;
  }

  private isOpen(index: number, allowances: Allowances): boolean {
    const pattern = this.patterns[index];
    if (pattern === undefined || (this.barsLeft[pattern.capacityIndex] ?? 0) === 0) return false;
    for (const [of, { patternCosts }] of this.systems.entries())
      if ((patternCosts[index] ?? 0) > (allowances[of] ?? 0)) return false;
    for (const [kindIndex, count] of pattern.takes) if ((this.left[kindIndex] ?? 0) < count) return false;
    return true;
  }

  /** The kind or bar with the fewest patterns; `none`: nothing has to be served any more; `dead`: something cannot be. */
  private smallestChoice(active: readonly number[], allowances: Allowances): Choice | 'none' | 'dead' {
    const { kindCounts, barCounts } = this.tally(active);
    const choices = [...this.kindChoices(kindCounts, allowances), ...this.barChoices(barCounts, allowances)];
    const [first, ...others] = choices;
    if (this.costsTooMuch(active, allowances)) return 'dead';
    if (first === undefined) return 'none';
    const smallest = others.reduce((best, choice) => (choice.optionCount < best.optionCount ? choice : best), first);
    return smallest.optionCount === 0 ? 'dead' : smallest;
  }

  /** Kinds that cost something to leave out. */
  private kindChoices(patternCounts: Int32Array, allowances: Allowances): readonly Choice[] {
    return this.left.flatMap((left, kindIndex) => {
      if (left === 0 || (this.systems[0]?.leavingOut[kindIndex] ?? 0) === 0) return [];
      const outCount = this.mayLeaveOut(kindIndex, 1, allowances) ? 1 : 0;
      return [{ kindIndex, barIndex: 0, optionCount: (patternCounts[kindIndex] ?? 0) + outCount }];
    });
  }

  /** Bars that cost too much to leave empty. */
  private barChoices(patternCounts: Int32Array, allowances: Allowances): readonly Choice[] {
    return this.barsLeft.flatMap((left, barIndex) => {
      const mayBeEmpty = this.systems.every(
        ({ leavingEmpty }, of) => (leavingEmpty[barIndex] ?? 0) <= (allowances[of] ?? 0),
      );
      return left === 0 || mayBeEmpty ? [] : [{ kindIndex: null, barIndex, optionCount: patternCounts[barIndex] ?? 0 }];
    });
  }

  private mayLeaveOut(kindIndex: number, count: number, allowances: Allowances): boolean {
    return this.systems.every(({ leavingOut }, of) => count * (leavingOut[kindIndex] ?? 0) <= (allowances[of] ?? 0));
  }

  /** Patterns left for each kind and for each bar. */
  private tally(active: readonly number[]): { readonly kindCounts: Int32Array; readonly barCounts: Int32Array } {
    const kindCounts = new Int32Array(this.sizes.length);
    const barCounts = new Int32Array(this.rooms.length);
    for (const index of active) {
      const pattern = this.patterns[index];
      if (pattern === undefined) continue;
      barCounts[pattern.capacityIndex] = (barCounts[pattern.capacityIndex] ?? 0) + 1;
      for (const [kindIndex] of pattern.takes) kindCounts[kindIndex] = (kindCounts[kindIndex] ?? 0) + 1;
    }
    return { kindCounts, barCounts };
  }

  /** Whether the pieces left cost more than may be spent, each with its share by length of its cheapest pattern. */
  private costsTooMuch(active: readonly number[], allowances: Allowances): boolean {
    return this.systems.some(({ patternCosts, leavingOut }, of) => {
      const leastCosts = Float64Array.from(leavingOut);
      for (const index of active) {
        const pattern = this.patterns[index];
        if (pattern === undefined) continue;
        const perQuantum = (patternCosts[index] ?? 0) / (this.rooms[pattern.capacityIndex] ?? 1);
        for (const [kindIndex] of pattern.takes) {
          const share = perQuantum * (this.sizes[kindIndex] ?? 0);
          if (share < (leastCosts[kindIndex] ?? 0)) leastCosts[kindIndex] = share;
        }
      }
      const needed = this.left.reduce(
        (sum, left, kindIndex) => (left === 0 ? sum : sum + left * (leastCosts[kindIndex] ?? 0)),
        0,
      );
      return needed > (allowances[of] ?? 0) + 1e-6;
    });
  }

  private fillBar(barIndex: number, active: readonly number[], allowances: Allowances): boolean {
    return this.tryEach(
      active.filter((index) => this.patterns[index]?.capacityIndex === barIndex),
      { active, servedIndex: null },
      allowances,
    );
  }

  /** One of the kind goes into a bar, or none of those left is made. */
  private serve(kindIndex: number, active: readonly number[], allowances: Allowances): boolean {
    const serving = active.filter((index) => this.patterns[index]?.takes.some(([own]) => own === kindIndex) === true);
    if (this.tryEach(serving, { active, servedIndex: kindIndex }, allowances)) return true;
    const left = this.left[kindIndex] ?? 0;
    if (this.budget.isSpent || !this.mayLeaveOut(kindIndex, left, allowances)) return false;
    const next = allowances.map(
      (allowancePoints, of) => allowancePoints - left * (this.systems[of]?.leavingOut[kindIndex] ?? 0),
    );
    this.left[kindIndex] = 0;
    if (this.cover(active, next)) return true;
    this.left[kindIndex] = left;
    return false;
  }

  private tryEach(
    serving: readonly number[],
    { active, servedIndex }: { readonly active: readonly number[]; readonly servedIndex: number | null },
    allowances: Allowances,
  ): boolean {
    for (const index of serving) {
      const pattern = this.patterns[index];
      if (pattern === undefined) continue;
      this.take(pattern, 1);
      this.chosen.push(pattern);
      const costs = this.costs(index);
      const next = allowances.map((allowancePoints, of) => allowancePoints - (costs[of] ?? 0));
      if (!this.couldHoldMore(pattern, servedIndex) && this.cover(active, next)) return true;
      this.chosen.pop();
      this.take(pattern, -1);
      if (this.budget.isSpent) return false;
    }
    return false;
  }

  /**
   * Whether a piece left goes in still, or a larger one worth no less in place of one that is in: another pattern does as
   * well then. The kind that is being served stays in.
   */
  private couldHoldMore({ capacityIndex, takes }: NearFullPattern, servedIndex: number | null): boolean {
    let room = this.rooms[capacityIndex] ?? 0;
    for (const [kindIndex, count] of takes) room -= count * (this.sizes[kindIndex] ?? 0);
    for (const [kindIndex, left] of this.left.entries()) {
      const size = this.sizes[kindIndex] ?? 0;
      if (left === 0) continue;
      if (size <= room) return true;
      for (const [own, count] of takes) {
        const ownSize = this.sizes[own] ?? 0;
        const stays = own === servedIndex && count === 1;
        if (!stays && ownSize < size && size - ownSize <= room && this.isWorthAsMuch(kindIndex, own)) return true;
      }
    }
    return false;
  }

  private isWorthAsMuch(kindIndex: number, otherIndex: number): boolean {
    return this.keepsAll || (this.values[kindIndex] ?? 0) >= (this.values[otherIndex] ?? 0);
  }

  private take({ capacityIndex, takes }: NearFullPattern, times: 1 | -1): void {
    this.barsLeft[capacityIndex] = (this.barsLeft[capacityIndex] ?? 0) - times;
    for (const [kindIndex, count] of takes) this.left[kindIndex] = (this.left[kindIndex] ?? 0) - times * count;
  }

  /** What is left of kinds that cost nothing stays out; bars not filled stay empty. */
  private isDone(allowances: Allowances): boolean {
    const leavingEmpty = this.systems[0]?.leavingEmpty ?? [];
    const empty = this.barsLeft.reduce((sum, count, barIndex) => sum + count * (leavingEmpty[barIndex] ?? 0), 0);
    return empty <= (allowances[0] ?? 0);
  }
}

interface Choice {
  readonly kindIndex: number | null;
  readonly barIndex: number;
  readonly optionCount: number;
}
