import { describe, expect, it } from 'vitest';
import {
  barsOf,
  LOCKER_ITEM_DEFAULTS,
  lockerChanges,
  lotsOf,
  materialsShort,
  takeFrom,
  type LockerItem,
} from '../../../lib/stock/index.ts';

// Rules of ours; sums by hand.

const line = (item: string, onBoardAmount: number, more: Partial<LockerItem> = {}): LockerItem => ({
  ...LOCKER_ITEM_DEFAULTS,
  item,
  unit: 'pieces',
  onBoardAmount,
  ...more,
});
const bar = (lengthMm: number, onBoardAmount: number, more: Partial<LockerItem> = {}): LockerItem =>
  line('batten rod', onBoardAmount, { kind: 'bar', lengthMm, diameterMm: 8, ...more });

describe('bars', () => {
  it('a need of the item: counts all its lengths, each above its own reserve', () => {
    const locker = { items: [bar(3000, 2, { keepAmount: 1 }), bar(1200, 1, { keepAmount: 2 }), bar(900, 1)] };
    const short = materialsShort(locker, [{ item: 'Batten rod', amount: 3, unit: 'pieces' }]);
    expect(short).toMatchObject({ ok: true, value: [{ availableAmount: 2, shortAmount: 1 }] });
  });

  it('as stock of a cut plan: those above the reserve, by item and size; tools and twine are none', () => {
    const items = [
      bar(3000, 3, { keepAmount: 1 }),
      bar(1200, 1, { keepAmount: 1 }),
      line('hacksaw', 1, { kind: 'tool' }),
    ];
    expect(barsOf({ items })).toEqual([{ id: 'batten rod 8 x 3000', lengthMm: 3000, diameterMm: 8, count: 2 }]);
  });
});

describe('takeFrom', () => {
  const later = Date.UTC(2026, 4, 28, 8);
  const lots = [...lotsOf({ items: [bar(3000, 1, { readyEpochMs: later }), bar(1200, 1)] })];
  const need = (amount: number) => [{ item: 'batten rod', amount, unit: 'pieces' }];

  it('takes what is ready earliest first, and what is made before that', () => {
    expect(takeFrom(lots, need(1)).taken).toMatchObject([{ readyEpochMs: null, makerId: null }]);
    expect(takeFrom(lots, need(2)).taken).toMatchObject([{ readyEpochMs: null }, { readyEpochMs: later }]);
    const made = [...lots, { item: 'Batten Rod', amount: 1, unit: 'pieces', readyEpochMs: null, makerId: 'saw' }];
    expect(takeFrom(made, need(1)).taken).toMatchObject([{ makerId: 'saw' }]);
    expect(takeFrom(made, need(1), ({ makerId }) => makerId === null).taken).toMatchObject([{ makerId: null }]);
  });

  it('goes as far as it can and says the rest; nothing comes or goes besides', () => {
    const { taken, shorts, left } = takeFrom(lots, need(3));
    expect(taken.reduce((sum, lot) => sum + lot.amount, 0)).toBe(2);
    expect(shorts).toEqual([
      { item: 'batten rod', unit: 'pieces', neededAmount: 3, availableAmount: 2, shortAmount: 1 },
    ]);
    expect(left.map(({ amount }) => amount)).toEqual([0, 0]);
  });

  it('another unit: finds nothing', () => {
    expect(takeFrom(lots, [{ item: 'batten rod', amount: 1, unit: 'm' }]).shorts).toMatchObject([{ shortAmount: 1 }]);
  });
});

describe('lockerChanges', () => {
  it('the same lines in another order: nothing', () => {
    const items = [bar(3000, 1), bar(1200, 1), line('awl', 1)];
    expect(lockerChanges({ items }, { items: items.toReversed() })).toEqual([]);
  });

  it('a line more, one gone, one otherwise: told apart by item and size', () => {
    const changes = lockerChanges({ items: [bar(3000, 1), line('awl', 1)] }, { items: [bar(3000, 2), bar(1200, 1)] });
    expect(changes.map(({ change, item, lengthMm }) => [change, item, lengthMm])).toEqual([
      ['changed', 'batten rod', 3000],
      ['added', 'batten rod', 1200],
      ['taken-out', 'awl', null],
    ]);
  });
});
