import type { Costs, NearFullPattern } from './near-full-patterns.ts';
import { Simplex, type Column } from './simplex.ts';
import type { WholeProblem } from './whole-problem.ts';
import type { WorkBudget } from './work-budget.ts';

/**
 * A bound on what a plan costs: the best cover in fractions, and what every choice costs beyond it.
 *
 * No plan that is good enough spends more than `allowance` on all its choices together.
 */
export interface PriceSystem {
  /** Of each pattern, in their order. */
  readonly patternCosts: readonly number[];
  /** Of leaving out one piece of each kind. */
  readonly leavingOut: readonly number[];
  /** Of leaving a bar of each capacity empty. */
  readonly leavingEmpty: readonly number[];
  /** Below 0 nothing will do. */
  readonly allowancePoints: number;
}

/** What is made least of: a cost of patterns, pieces left out and bars left empty. */
interface Objective {
  readonly patternCosts: readonly number[];
  readonly leavingOut: readonly number[];
  readonly leavingEmpty: readonly number[];
  readonly allowancePoints: number;
  /** The pieces made must weigh so much; null where the costs see to that. */
  readonly leastWeight: number | null;
}

/** Costs are counted in such parts, so that prices can be rounded to whole numbers. */
const SCALE = 1024;
const MOST_ROUNDS = 1500;
/** Columns priced that count as one step of work. */
const COLUMNS_PER_STEP = 100;
/** How much dearer than the allowance it is to leave out what must not be. */
const DEAR = 20;

/** Prices for the costs themselves: waste, pieces left out, pieces not worth their length. */
export const costPrices = (
  problem: WholeProblem,
  costs: Costs,
  patterns: readonly NearFullPattern[],
  budget: WorkBudget,
): PriceSystem =>
  priced(
    problem,
    patterns,
    {
      patternCosts: patterns.map(({ costPoints }) => costPoints),
      leavingOut: costs.leavingOut,
      leavingEmpty: problem.capacities.map(({ roomQuanta }) => roomQuanta * costs.perWastePoints),
      allowancePoints: costs.allowancePoints,
      leastWeight: null,
    },
    budget,
  );

/** Waste alone, without prices: what is left over in all bars together. */
export const wasteSystem = (
  problem: WholeProblem,
  costs: Costs,
  patterns: readonly NearFullPattern[],
): PriceSystem => ({
  patternCosts: patterns.map(({ capacityIndex, takes }) =>
    takes.reduce(
      (left, [kindIndex, count]) => left - count * (problem.sizesQuanta[kindIndex] ?? 0),
      problem.capacities[capacityIndex]?.roomQuanta ?? 0,
    ),
  ),
  leavingOut: problem.counts.map(() => 0),
  leavingEmpty: problem.capacities.map(({ roomQuanta }) => roomQuanta),
  allowancePoints: costs.mostWasteQuanta,
});

/** Prices for what lies in the spare bar, which may be no more than its room; null without one. */
export function sparePrices(
  problem: WholeProblem,
  patterns: readonly NearFullPattern[],
  leastWeight: number,
  budget: WorkBudget,
): PriceSystem | null {
  const spareIndex = problem.capacities.findIndex(({ isSpare }) => isSpare);
  const spare = problem.capacities[spareIndex];
  if (spare === undefined) return null;
  const loadOf = ({ takes }: NearFullPattern): number =>
    takes.reduce((sum, [kindIndex, count]) => sum + count * (problem.sizesQuanta[kindIndex] ?? 0), 0);
  return priced(
    problem,
    patterns,
    {
      patternCosts: patterns.map((pattern) => (pattern.capacityIndex === spareIndex ? loadOf(pattern) : 0)),
      leavingOut: problem.counts.map(() => 0),
      leavingEmpty: problem.capacities.map(() => 0),
      allowancePoints: spare.roomQuanta,
      leastWeight,
    },
    budget,
  );
}

/** Takes prices into the costs. Prices rounded to whole numbers, and lowered where they must be, keep the bound safe. */
function priced(
  problem: WholeProblem,
  patterns: readonly NearFullPattern[],
  objective: Objective,
  budget: WorkBudget,
): PriceSystem {
  const kindCount = problem.counts.length;
  const barRow = (barIndex: number): number => kindCount + barIndex;
  const weightRow = kindCount + problem.capacities.length;
  const columns = columnsOf(problem, patterns, objective);
  const prices = fractionalPrices(problem, columns, objective, budget).map((price) => Math.floor(price * SCALE));
  if (objective.leastWeight !== null) prices[weightRow] = Math.max(0, prices[weightRow] ?? 0);
  const beyond = ({ entries, costPoints }: Column): number =>
    entries.reduce((sum, [rowIndex, value]) => sum - value * (prices[rowIndex] ?? 0), costPoints * SCALE);
  const lower = (rowIndex: number, byPoints: number): void => {
    if (byPoints < 0) prices[rowIndex] = (prices[rowIndex] ?? 0) + byPoints;
  };
  for (const [index, column] of columns.entries()) lower(barRow(patterns[index]?.capacityIndex ?? 0), beyond(column));
  for (const [barIndex, costPoints] of objective.leavingEmpty.entries())
    lower(barRow(barIndex), costPoints * SCALE - (prices[barRow(barIndex)] ?? 0));
  for (const [kindIndex, costPoints] of objective.leavingOut.entries())
    lower(kindIndex, costPoints * SCALE - (prices[kindIndex] ?? 0));
  const best = rightSideOf(problem, objective).reduce(
    (sum, amount, rowIndex) => sum + amount * (prices[rowIndex] ?? 0),
    0,
  );
  return {
    patternCosts: columns.map(beyond),
    leavingOut: objective.leavingOut.map((costPoints, kindIndex) => costPoints * SCALE - (prices[kindIndex] ?? 0)),
    leavingEmpty: objective.leavingEmpty.map(
      (costPoints, barIndex) => costPoints * SCALE - (prices[barRow(barIndex)] ?? 0),
    ),
    allowancePoints: objective.allowancePoints * SCALE - best,
  };
}

/** Rows: kinds, bars, and the weight where it is asked for. */
const rightSideOf = ({ counts, capacities }: WholeProblem, { leastWeight }: Objective): readonly number[] => [
  ...counts,
  ...capacities.map(({ count }) => count),
  ...(leastWeight === null ? [] : [leastWeight]),
];

function columnsOf(
  { counts, capacities, valueWeights }: WholeProblem,
  patterns: readonly NearFullPattern[],
  { patternCosts, leastWeight }: Objective,
): readonly Column[] {
  const weightRow = counts.length + capacities.length;
  return patterns.map(({ capacityIndex, takes }, index): Column => {
    const weight = takes.reduce((sum, [kindIndex, count]) => sum + count * (valueWeights[kindIndex] ?? 0), 0);
    const weightEntry = leastWeight === null ? [] : [[weightRow, weight] as const];
    return {
      entries: [...takes, [counts.length + capacityIndex, 1], ...weightEntry],
      costPoints: patternCosts[index] ?? 0,
    };
  });
}

/** Prices of the rows of the best cover in fractions. */
function fractionalPrices(
  problem: WholeProblem,
  columns: readonly Column[],
  objective: Objective,
  budget: WorkBudget,
): readonly number[] {
  const kindCount = problem.counts.length;
  const weightRow = kindCount + problem.capacities.length;
  const dear = DEAR * (objective.allowancePoints + 1);
  const leavingOut = objective.leavingOut.map((costPoints, kindIndex): Column => ({
    entries: [[kindIndex, 1]],
    costPoints: Math.min(costPoints, dear),
  }));
  const leavingEmpty = objective.leavingEmpty.map((costPoints, barIndex): Column => ({
    entries: [[kindCount + barIndex, 1]],
    costPoints,
  }));
  const lightest = Math.max(1, Math.min(...problem.valueWeights));
  const tooLight: Column = { entries: [[weightRow, 1]], costPoints: dear / lightest };
  const tooHeavy: Column = { entries: [[weightRow, -1]], costPoints: 0 };
  const start = [...leavingOut, ...leavingEmpty, ...(objective.leastWeight === null ? [] : [tooLight])];
  const all = new FlatColumns([...columns, ...start, ...(objective.leastWeight === null ? [] : [tooHeavy])]);
  const simplex = new Simplex(start, rightSideOf(problem, objective));
  const stepCount = 1 + Math.floor(Math.min(columns.length, BLOCK_COUNT) / COLUMNS_PER_STEP);
  for (let round = 0; round < MOST_ROUNDS; round++) {
    if (!budget.spend(stepCount)) break;
    const entering = all.cheapest(simplex.prices());
    if (entering === null || !simplex.enter(entering)) break;
  }
  return [...simplex.prices()];
}

/** Columns looked at together; the best of the first block with a good one is taken. */
const BLOCK_COUNT = 700;

/** Columns laid out flat, and priced block by block, going on where the last search ended. */
class FlatColumns {
  private readonly columns: readonly Column[];
  private readonly starts: Int32Array;
  private readonly rows: Int32Array;
  private readonly values: Float64Array;
  private readonly costs: Float64Array;
  private next = 0;

  constructor(columns: readonly Column[]) {
    this.columns = columns;
    this.starts = new Int32Array(columns.length + 1);
    this.costs = new Float64Array(columns.length);
    for (const [index, { entries, costPoints }] of columns.entries()) {
      this.starts[index + 1] = (this.starts[index] ?? 0) + entries.length;
      this.costs[index] = costPoints;
    }
    this.rows = new Int32Array(this.starts[columns.length] ?? 0);
    this.values = new Float64Array(this.rows.length);
    let place = 0;
    for (const { entries } of columns)
      for (const [rowIndex, value] of entries) {
        this.rows[place] = rowIndex;
        this.values[place++] = value;
      }
  }

  /** A column that costs less than nothing beyond the prices of its rows, or null when there is none. */
  cheapest(prices: Float64Array): Column | null {
    const count = this.costs.length;
    let [best, least] = [-1, -1e-7];
    for (let looked = 0; looked < count && best < 0; looked += BLOCK_COUNT) {
      for (let place = 0; place < Math.min(BLOCK_COUNT, count - looked); place++) {
        const beyond = this.beyond(this.next, prices);
        if (beyond < least) [best, least] = [this.next, beyond];
        this.next = this.next + 1 === count ? 0 : this.next + 1;
      }
    }
    return this.columns[best] ?? null;
  }

  private beyond(index: number, prices: Float64Array): number {
    const { starts, rows, values } = this;
    let beyond = this.costs[index] ?? 0;
    const end = starts[index + 1] ?? 0;
    for (let entry = starts[index] ?? 0; entry < end; entry++)
      beyond -= (values[entry] ?? 0) * (prices[rows[entry] ?? 0] ?? 0);
    return beyond;
  }
}
