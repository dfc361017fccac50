import { okUnless, type Problem, type Result } from '../result/index.ts';
import { itemKey, type Locker } from './locker/locker.ts';
import { lotsOf, takeFrom, type MaterialShort, type Need } from './lots.ts';

/**
 * What is missing for all of the needs together, in the order first needed; needs of one item add up, and so do its
 * lines in the locker.
 *
 * An item that is not in the locker is wholly short. Item names are compared without regard to case.
 *
 * @returns the shortages, empty when everything is there, or `stock.unit-mismatch` for each need in another unit than
 *   the locker counts in
 */
export function materialsShort(locker: Locker, needs: readonly Need[]): Result<readonly MaterialShort[]> {
  const problems = needs.flatMap((need) => unitProblems(locker, need));
  return okUnless(problems, () => takeFrom(lotsOf(locker), needs).shorts);
}

function unitProblems(locker: Locker, need: Need): readonly Problem[] {
  const entry = locker.items.find(({ item }) => itemKey(item) === itemKey(need.item));
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
