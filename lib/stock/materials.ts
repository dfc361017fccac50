import { okUnless, type Problem, type Result } from '../result/index.ts';
import type { Locker } from './locker.ts';

/** So much of an item. */
export interface Need {
  readonly item: string;
  readonly amount: number;
  readonly unit: string;
}

/** An item of which the locker has too little above its reserve. */
export interface MaterialShort {
  readonly item: string;
  readonly unit: string;
  readonly neededAmount: number;
  /** On board less the reserve, never below 0. */
  readonly availableAmount: number;
  readonly shortAmount: number;
}

/** Rounding of sums is not a shortage. */
const NEGLIGIBLE_SHARE = 1e-9;

const keyOf = (item: string): string => item.trim().toLowerCase();

/**
 * What is missing for all of the needs together, in the order first needed; needs of one item add up.
 *
 * An item that is not in the locker is wholly short. Item names are compared without regard to case.
 *
 * @returns the shortages, empty when everything is there, or `stock.unit-mismatch` for each need in another unit than
 *   the locker counts in
 */
export function materialsShort(locker: Locker, needs: readonly Need[]): Result<readonly MaterialShort[]> {
  const problems = needs.flatMap((need) => unitProblems(locker, need));
  return okUnless(problems, () => summed(needs).flatMap((need) => shortOf(locker, need)));
}

function unitProblems(locker: Locker, need: Need): readonly Problem[] {
  const entry = locker.items.find(({ item }) => keyOf(item) === keyOf(need.item));
  if (entry === undefined || entry.unit === need.unit) return [];
  return [
    {
      code: 'stock.unit-mismatch',
      where: need.item,
      what: `${need.amount} ${need.unit} of ${need.item} is needed, but the locker counts it in ${entry.unit}.`,
      expected: `the same unit in both, such as ${need.unit}`,
      remedy: `Count ${need.item} in ${need.unit} in the locker, or name the need in ${entry.unit}.`,
    },
  ];
}

function summed(needs: readonly Need[]): readonly Need[] {
  const byItem = new Map<string, Need>();
  for (const need of needs) {
    const before = byItem.get(keyOf(need.item));
    byItem.set(keyOf(need.item), before === undefined ? need : { ...before, amount: before.amount + need.amount });
  }
  return [...byItem.values()];
}

function shortOf(locker: Locker, need: Need): readonly MaterialShort[] {
  const entry = locker.items.find(({ item }) => keyOf(item) === keyOf(need.item));
  const availableAmount = Math.max(0, (entry?.onBoardAmount ?? 0) - (entry?.keepAmount ?? 0));
  const shortAmount = need.amount - availableAmount;
  if (shortAmount <= need.amount * NEGLIGIBLE_SHARE) return [];
  return [{ item: need.item, unit: need.unit, neededAmount: need.amount, availableAmount, shortAmount }];
}
