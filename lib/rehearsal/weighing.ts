/** Draws with weights, and the groups they are independent between. */
export interface Weighing {
  readonly weights: Int32Array;
  /** Group of each draw, for standard errors. */
  readonly groupIndex: Int32Array;
}

const BLOCK_COUNT = 8;

/** Groups by member where there are several, else eight blocks of draws. */
export function weighingOf(weights: Int32Array, memberIndex: Int32Array | null): Weighing {
  const hasMembers = memberIndex !== null && new Set(memberIndex).size > 1;
  const blocks = (): Int32Array => weights.map((_, i) => Math.floor((i * BLOCK_COUNT) / weights.length));
  return { weights, groupIndex: hasMembers ? memberIndex : blocks() };
}

/** Share of weight of the draws of which something holds. */
export function shareWhere({ weights }: Weighing, holds: (drawIndex: number) => boolean): number {
  let [insideWeight, allWeight] = [0, 0];
  for (const [i, weight] of weights.entries()) {
    allWeight += weight;
    if (holds(i)) insideWeight += weight;
  }
  return allWeight > 0 ? insideWeight / allWeight : 0;
}

/**
 * One standard error of that share, from how much the groups disagree, each by its weight; 0 where there are fewer than
 * two. Groups of equal weight: s/√n.
 */
export function shareSd({ weights, groupIndex }: Weighing, holds: (drawIndex: number) => boolean): number {
  const sums = new Map<number, { insideWeight: number; allWeight: number }>();
  for (const [i, weight] of weights.entries()) {
    const group = groupIndex[i] ?? 0;
    const sum = sums.get(group) ?? { insideWeight: 0, allWeight: 0 };
    sum.allWeight += weight;
    if (holds(i)) sum.insideWeight += weight;
    sums.set(group, sum);
  }
  const groups = [...sums.values()].filter((sum) => sum.allWeight > 0);
  if (groups.length < 2) return 0;
  const all = groups.reduce((sum, group) => sum + group.allWeight, 0);
  const mean = groups.reduce((sum, group) => sum + group.insideWeight, 0) / all;
  const square = groups.reduce((sum, group) => sum + ((group.insideWeight - mean * group.allWeight) / all) ** 2, 0);
  return Math.sqrt((square * groups.length) / (groups.length - 1));
}

/** Tenth, half and nine tenths of weight lie at or below these; values of NaN are left out; null: nothing else is there. */
export function weightedSpread(
  { weights }: Weighing,
  values: Float64Array,
): { readonly p10: number; readonly p50: number; readonly p90: number } | null {
  const order = [...values.keys()]
    .filter((i) => !Number.isNaN(values[i]))
    .toSorted((a, b) => at(values, a) - at(values, b));
  if (order.length === 0) return null;
  const all = order.reduce((sum, i) => sum + at(weights, i), 0);
  const quantile = (share: number): number => {
    let sum = 0;
    const found = order.find((i) => (sum += at(weights, i)) >= share * all);
    return at(values, found ?? order.at(-1) ?? 0);
  };
  return { p10: quantile(0.1), p50: quantile(0.5), p90: quantile(0.9) };
}

const at = (values: Float64Array | Int32Array, index: number): number => values[index] ?? Number.NaN;
