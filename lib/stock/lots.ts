import { freeAmount, itemKey, type Locker } from './locker/locker.ts';

/** So much of an item. */
export interface Need {
  readonly item: string;
  readonly amount: number;
  readonly unit: string;
}

/** Some of an item that can be taken: a line of the locker above its reserve, or what a job makes. */
export interface Lot extends Need {
  /** Not to be taken before; null: at once. */
  readonly readyEpochMs: number | null;
  /** Job that makes it; null: it is on board. */
  readonly makerId: string | null;
}

/** An item of which there is too little above the reserve. */
export interface MaterialShort {
  readonly item: string;
  readonly unit: string;
  readonly neededAmount: number;
  /** What can be taken, never below 0. */
  readonly availableAmount: number;
  readonly shortAmount: number;
}

/** What needs take of lots, as far as these go. */
export interface Taking {
  readonly taken: readonly Lot[];
  readonly shorts: readonly MaterialShort[];
  readonly left: readonly Lot[];
}

/** Rounding of sums is not a shortage. */
const NEGLIGIBLE_SHARE = 1e-9;

/** What may be taken from a locker. */
export const lotsOf = (locker: Locker): Lot[] =>
  locker.items.map((line) => ({
    item: line.item,
    unit: line.unit,
    amount: freeAmount(line),
    readyEpochMs: line.readyEpochMs,
    makerId: null,
  }));

/**
 * Takes needs from lots: first of what jobs make, then of what is ready earliest. Needs of one item add up; a need in
 * another unit than the lot finds nothing.
 *
 * @param isOpen whether a lot may be taken at all; by default every one
 */
export function takeFrom(
  lots: readonly Lot[],
  needs: readonly Need[],
  isOpen: (lot: Lot) => boolean = () => true,
): Taking {
  const taken: Lot[] = [];
  const shorts: MaterialShort[] = [];
  let left = lots;
  for (const need of summed(needs)) {
    const isMeant = (lot: Lot): boolean => isSame(lot, need) && isOpen(lot);
    const availableAmount = left.filter(isMeant).reduce((sum, lot) => sum + lot.amount, 0);
    const shortAmount = need.amount - availableAmount;
    if (shortAmount > need.amount * NEGLIGIBLE_SHARE)
      shorts.push({ item: need.item, unit: need.unit, neededAmount: need.amount, availableAmount, shortAmount });
    const parts = partsOf(left.filter(isMeant), need);
    taken.push(...parts.values());
    left = left.map((lot) => ({ ...lot, amount: Math.max(0, lot.amount - (parts.get(lot)?.amount ?? 0)) }));
  }
  return { taken, shorts, left };
}

/** How much of each lot goes, by lot; only lots of which some goes. */
function partsOf(lots: readonly Lot[], need: Need): Map<Lot, Lot> {
  const parts = new Map<Lot, Lot>();
  let openAmount = need.amount;
  for (const lot of lots.toSorted(byReadiness)) {
    const amount = Math.min(lot.amount, openAmount);
    if (amount <= need.amount * NEGLIGIBLE_SHARE) continue;
    parts.set(lot, { ...lot, amount });
    openAmount -= amount;
  }
  return parts;
}

const byReadiness = (a: Lot, b: Lot): number =>
  Number(a.makerId === null) - Number(b.makerId === null) ||
  (a.readyEpochMs ?? -Infinity) - (b.readyEpochMs ?? -Infinity) ||
  0;

const isSame = (one: Need, other: Need): boolean =>
  itemKey(one.item) === itemKey(other.item) && one.unit === other.unit;

function summed(needs: readonly Need[]): readonly Need[] {
  const byItem = new Map<string, Need>();
  for (const need of needs) {
    const key = `${itemKey(need.item)} ${need.unit}`;
    const before = byItem.get(key);
    byItem.set(key, before === undefined ? need : { ...before, amount: before.amount + need.amount });
  }
  return [...byItem.values()];
}
