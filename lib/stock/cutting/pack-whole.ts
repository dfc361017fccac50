import { costsOf, nearFullPatterns, type Costs, type NearFullPattern } from './near-full-patterns.ts';
import { costPrices, sparePrices, wasteSystem, type PriceSystem } from './near-full-prices.ts';
import { NearFullSearch } from './near-full-search.ts';
import { patternBound, type PatternBound } from './pattern-bound.ts';
import type { FilledBar, WholeAnswer, WholeProblem } from './whole-problem.ts';
import { WholeSearch } from './whole-search.ts';
import type { WorkBudget } from './work-budget.ts';

/** Steps of the first search, before anything is counted or relaxed. */
const FIRST_LOOK_STEPS = 1500;
/** More pieces than this are never searched bar by bar: rounding has to leave fewer. */
const MOST_SEARCHED_COUNT = 300;
const MOST_PATTERNS = 40_000;
const PATTERN_STEPS = 300_000;
const ROUNDING_STEPS = 20_000;
const IMPOSSIBLE: WholeAnswer = { kind: 'impossible' };

/**
 * Whole pieces into bars, so that what is made weighs at least `targetWeight`.
 *
 * A first look by search; where bars can have but little waste, an exact cover by nearly full bars; otherwise the pieces
 * are relaxed to patterns, rounded down, and what that leaves is searched, in the end everything.
 */
export function packWhole(problem: WholeProblem, targetWeight: number, budget: WorkBudget): WholeAnswer {
  const mostLossWeight = weightOf(problem) - targetWeight;
  if (mostLossWeight < 0) return IMPOSSIBLE;
  if (problem.counts.every((count) => count === 0)) return { kind: 'packed', bars: [] };
  if (mostLossWeight === 0 && tooLong(problem)) return IMPOSSIBLE;
  const isShort = sumOf(problem.counts) <= MOST_SEARCHED_COUNT;
  const early = isShort ? settledEarly(problem, mostLossWeight, budget) : null;
  if (early !== null) return early;
  if (mostLossWeight > 0) return isShort ? searched(problem, mostLossWeight, null, budget) : { kind: 'unknown' };
  const bound = patternBound(problem, budget);
  if (bound !== null && bound.slackWeight < 0) return IMPOSSIBLE;
  const rounded = bound === null ? null : roundedDown(problem, bound, budget);
  if (rounded !== null) return { kind: 'packed', bars: rounded };
  return isShort ? searched(problem, mostLossWeight, bound, budget) : { kind: 'unknown' };
}

/** An answer by a short search or by nearly full bars, or null. */
function settledEarly(problem: WholeProblem, mostLossWeight: number, budget: WorkBudget): WholeAnswer | null {
  const look = searched(problem, mostLossWeight, null, budget.part(FIRST_LOOK_STEPS));
  if (look.kind !== 'unknown') return look;
  const costs = costsOf(problem, mostLossWeight);
  if (costs.allowancePoints < 0 || costs.mostWasteQuanta < 0) return IMPOSSIBLE;
  const patterns = nearFullPatterns(problem, costs, MOST_PATTERNS, budget.part(PATTERN_STEPS));
  if (patterns === null) return null;
  const part = budget.part(budget.remainingCount / 2);
  const prices = costPrices(problem, costs, patterns, part);
  if (prices.allowancePoints < 0) return IMPOSSIBLE;
  const more = mostLossWeight === 0 ? [] : moreSystems(problem, { costs, patterns, mostLossWeight }, part);
  if (more.some(({ allowancePoints }) => allowancePoints < 0)) return IMPOSSIBLE;
  const bars = new NearFullSearch(problem, patterns, [prices, ...more], part).find();
  if (bars !== null) return { kind: 'packed', bars };
  return part.isSpent ? null : IMPOSSIBLE;
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, value) => sum + value, 0);

/** Further bounds where not all is made; where all is, the costs say the same. */
function moreSystems(
  problem: WholeProblem,
  of: { readonly costs: Costs; readonly patterns: readonly NearFullPattern[]; readonly mostLossWeight: number },
  budget: WorkBudget,
): readonly PriceSystem[] {
  const spare = sparePrices(problem, of.patterns, weightOf(problem) - of.mostLossWeight, budget);
  return [wasteSystem(problem, of.costs, of.patterns), ...(spare === null ? [] : [spare])];
}

const weightOf = ({ counts, valueWeights }: WholeProblem): number =>
  sumOf(counts.map((count, kindIndex) => count * (valueWeights[kindIndex] ?? 0)));

const tooLong = ({ sizesQuanta, counts, capacities }: WholeProblem): boolean =>
  sumOf(counts.map((count, kindIndex) => count * (sizesQuanta[kindIndex] ?? 0))) >
  sumOf(capacities.map(({ roomQuanta, count }) => roomQuanta * count));

function searched(
  problem: WholeProblem,
  mostLossWeight: number,
  bound: PatternBound | null,
  budget: WorkBudget,
): WholeAnswer {
  const bars = new WholeSearch(problem, mostLossWeight === 0, bound, budget).find(mostLossWeight);
  if (bars !== null) return { kind: 'packed', bars };
  return { kind: budget.isSpent ? 'unknown' : 'impossible' };
}

/** Takes the relaxed patterns in whole numbers, fewer and fewer of them, until a search packs what they leave. */
function roundedDown(problem: WholeProblem, bound: PatternBound, budget: WorkBudget): readonly FilledBar[] | null {
  for (let givenBackCount = 0; !budget.isSpent; givenBackCount++) {
    const taken = bound.patterns.map((pattern) => ({
      ...pattern,
      barCount: Math.max(0, Math.floor(pattern.barCount + 1e-6) - givenBackCount),
    }));
    const rest = without(problem, taken);
    if (sumOf(rest.counts) > MOST_SEARCHED_COUNT) return null;
    const answer = searched(rest, 0, null, budget.part(ROUNDING_STEPS));
    if (answer.kind === 'packed') return noneTooMany([...taken.flatMap(barsOf), ...answer.bars], problem.counts);
    if (taken.every(({ barCount }) => barCount === 0)) return null;
  }
  return null;
}

interface TakenPattern {
  readonly capacityIndex: number;
  readonly counts: readonly number[];
  readonly barCount: number;
}

const barsOf = ({ capacityIndex, counts, barCount }: TakenPattern): readonly FilledBar[] =>
  Array.from({ length: barCount }, () => ({ capacityIndex, counts }));

/** Relaxed patterns may hold more of a kind than is wanted: what is too many is left out. */
function noneTooMany(bars: readonly FilledBar[], wantedCounts: readonly number[]): readonly FilledBar[] {
  const left = [...wantedCounts];
  return bars.map(({ capacityIndex, counts }) => ({
    capacityIndex,
    counts: counts.map((count, kindIndex) => {
      const taken = Math.min(count, left[kindIndex] ?? 0);
      left[kindIndex] = (left[kindIndex] ?? 0) - taken;
      return taken;
    }),
  }));
}

function without(problem: WholeProblem, taken: readonly TakenPattern[]): WholeProblem {
  const usedOf = (kindIndex: number): number =>
    sumOf(taken.map(({ counts, barCount }) => barCount * (counts[kindIndex] ?? 0)));
  const barsOfIndex = (index: number): number =>
    sumOf(taken.flatMap(({ capacityIndex, barCount }) => (capacityIndex === index ? [barCount] : [])));
  return {
    ...problem,
    counts: problem.counts.map((count, kindIndex) => Math.max(0, count - usedOf(kindIndex))),
    leastLoadQuanta: 0,
    capacities: problem.capacities.map((capacity, index) => ({
      ...capacity,
      count: capacity.count - barsOfIndex(index),
    })),
  };
}
