import { BoundedKnapsack } from './bounded-knapsack.ts';
import { Simplex, type Column } from './simplex.ts';
import type { WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';

/** A way to fill bars of one capacity, and how many bars of it the relaxed plan takes. */
export interface RelaxedPattern {
  readonly capacityIndex: number;
  readonly counts: readonly number[];
  readonly barCount: number;
}

/**
 * What the relaxation says: prices of the kinds and of the bars, in whole numbers.
 *
 * No filling of a bar is worth more than the bar's price, so every bar filled for less, and every bar left over, uses up
 * slack. Below 0 the pieces do not fit, whatever is tried.
 */
export interface PatternBound {
  readonly kindPriceWeights: readonly number[];
  readonly barPriceWeights: readonly number[];
  readonly slackWeight: number;
  readonly patterns: readonly RelaxedPattern[];
}

const MOST_CELLS = 3_000_000;
const MOST_ROUNDS = 1500;
/** Cost of a piece that finds no bar, in bars. */
const UNPLACED_COST = 50;
const PRICE_SCALE = 100_000;
const EPSILON = 1e-7;
/** Cells of the pricing table that count as one step of work. */
const CELLS_PER_STEP = 400;

interface PatternColumn extends Column {
  readonly pattern: { readonly capacityIndex: number; readonly counts: readonly number[] } | null;
}

/**
 * Relaxes the packing of all pieces to fractions of patterns, by column generation (Gilmore and Gomory, Operations
 * Research 9, 1961, 849-859).
 *
 * @returns null where the pricing table would be too large or the work allowed runs out
 */
export function patternBound(problem: WholeProblem, budget: WorkBudget): PatternBound | null {
  const knapsack = BoundedKnapsack.of(problem, MOST_CELLS);
  if (knapsack === null) return null;
  const simplex = startOf(problem);
  const columns = new Map<Column, PatternColumn>();
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (!budget.spend(1 + Math.ceil(knapsack.cellCount / CELLS_PER_STEP))) return null;
    const entering = enteringColumn(problem, simplex.prices(), knapsack);
    if (entering === null) break;
    columns.set(entering, entering);
    if (!simplex.enter(entering)) return null;
  }
  const patterns = simplex.solution().flatMap(({ column, count: barCount }) => {
    const pattern = columns.get(column)?.pattern ?? null;
    return pattern === null || barCount < EPSILON ? [] : [{ ...pattern, barCount }];
  });
  return inWholeNumbers(problem, simplex.prices(), knapsack, patterns);
}

function startOf({ counts, capacities }: WholeProblem): Simplex {
  const unplaced = counts.map((_, row): Column => ({ entries: [[row, 1]], costPoints: UNPLACED_COST }));
  const unused = capacities.map((_, index): Column => ({ entries: [[counts.length + index, 1]], costPoints: 0 }));
  return new Simplex([...unplaced, ...unused], [...counts, ...capacities.map(({ count }) => count)]);
}

function enteringColumn(
  { counts, capacities }: WholeProblem,
  prices: Float64Array,
  knapsack: BoundedKnapsack,
): PatternColumn | null {
  const worths = counts.map((_, kind) => Math.max(0, prices[kind] ?? 0));
  knapsack.solve(worths);
  let best: { readonly capacityIndex: number; readonly gainPoints: number } | null = null;
  for (const [capacityIndex, { roomQuanta }] of capacities.entries()) {
    const gainPoints = knapsack.bestIn(roomQuanta) + (prices[counts.length + capacityIndex] ?? 0) - 1;
    if (gainPoints > Math.max(EPSILON, best?.gainPoints ?? 0)) best = { capacityIndex, gainPoints };
  }
  if (best === null) return slackColumn(counts.length, prices);
  const { capacityIndex } = best;
  const taken = knapsack.countsIn(capacities[capacityIndex]?.roomQuanta ?? 0);
  const entries = taken.flatMap((count, kind) => (count === 0 ? [] : [[kind, count] as const]));
  return {
    entries: [...entries, [counts.length + capacityIndex, 1]],
    costPoints: 1,
    pattern: { capacityIndex, counts: taken },
  };
}

/** A piece too many is no harm, and a bar may stay unused. */
function slackColumn(kindCount: number, prices: Float64Array): PatternColumn | null {
  for (const [row, price] of prices.entries()) {
    if (row < kindCount && price < -EPSILON) return { entries: [[row, -1]], costPoints: 0, pattern: null };
    if (row >= kindCount && price > EPSILON) return { entries: [[row, 1]], costPoints: 0, pattern: null };
  }
  return null;
}

/** Prices rounded to whole numbers give a bound that rounding cannot spoil. */
function inWholeNumbers(
  { counts, capacities }: WholeProblem,
  prices: Float64Array,
  knapsack: BoundedKnapsack,
  patterns: readonly RelaxedPattern[],
): PatternBound {
  const kindPriceWeights = counts.map((_, kind) => Math.floor(Math.max(0, prices[kind] ?? 0) * PRICE_SCALE + EPSILON));
  knapsack.solve(kindPriceWeights);
  const barPriceWeights = capacities.map(({ roomQuanta }) => knapsack.bestIn(roomQuanta));
  const slackWeight =
    capacities.reduce((sum, { count }, index) => sum + count * (barPriceWeights[index] ?? 0), 0) -
    counts.reduce((sum, count, kind) => sum + count * (kindPriceWeights[kind] ?? 0), 0);
  return { kindPriceWeights, barPriceWeights, slackWeight, patterns };
}
