import { describe, expect, it } from 'vitest';
import { LOCKER_ITEM_DEFAULTS, materialsShort, type Locker } from '../../lib/stock/index.ts';

const locker: Locker = {
  items: [
    { ...LOCKER_ITEM_DEFAULTS, item: 'waxed twine', unit: 'm', onBoardAmount: 60, keepAmount: 15 },
    { ...LOCKER_ITEM_DEFAULTS, item: 'epoxy', unit: 'ml', onBoardAmount: 30, keepAmount: 40 },
  ],
};
const short = (needs: Parameters<typeof materialsShort>[1]): unknown => {
  const result = materialsShort(locker, needs);
  return result.ok ? result.value : result.problems.map((problem) => problem.code);
};

describe('materialsShort', () => {
  it('exactly what lies above the reserve: nothing short', () => {
    expect(short([{ item: 'Waxed Twine', amount: 45, unit: 'm' }])).toEqual([]);
  });

  it('two needs of one item: add up and are short by the rest', () => {
    expect(
      short([
        { item: 'waxed twine', amount: 30, unit: 'm' },
        { item: 'waxed twine', amount: 20, unit: 'm' },
      ]),
    ).toEqual([{ item: 'waxed twine', unit: 'm', neededAmount: 50, availableAmount: 45, shortAmount: 5 }]);
  });

  it('less on board than the reserve: nothing is available', () => {
    expect(short([{ item: 'epoxy', amount: 20, unit: 'ml' }])).toMatchObject([{ availableAmount: 0, shortAmount: 20 }]);
  });

  it('an item the locker does not list: wholly short', () => {
    expect(short([{ item: 'butyl tape', amount: 0.5, unit: 'm' }])).toMatchObject([{ shortAmount: 0.5 }]);
  });

  it('needs that make a tenth plus two tenths of the three tenths there: rounding is not a shortage', () => {
    const tenths: Locker = {
      items: [{ ...LOCKER_ITEM_DEFAULTS, item: 'tape', unit: 'm', onBoardAmount: 0.3, keepAmount: 0 }],
    };
    const result = materialsShort(tenths, [
      { item: 'tape', amount: 0.1, unit: 'm' },
      { item: 'tape', amount: 0.2, unit: 'm' },
    ]);
    expect(result).toEqual({ ok: true, value: [] });
  });

  it('a need in another unit: one problem for each', () => {
    expect(
      short([
        { item: 'waxed twine', amount: 5, unit: 'ft' },
        { item: 'epoxy', amount: 0.02, unit: 'L' },
      ]),
    ).toEqual(['stock.unit-mismatch', 'stock.unit-mismatch']);
  });
});
