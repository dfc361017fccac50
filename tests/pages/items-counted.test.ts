/** When items of the locker were counted, by the versions of a document. */
import { describe, expect, it } from 'vitest';
import { itemsCountedAt } from '../../server/documents/items-counted.ts';

const version = (savedAtEpochMs: number, locker: unknown) => ({ json: JSON.stringify({ locker }), savedAtEpochMs });
const twine = (onBoard: number) => ({ item: 'Waxed twine', unit: 'm', onBoard });
const ties = { item: 'sail ties', onBoard: 6 };

describe('items counted', () => {
  it('a line changed: when it was saved; lines that stay as they were first are not among them', () => {
    const counted = itemsCountedAt([version(1, [twine(60), ties]), version(2, [twine(40), ties])]);
    expect([...counted]).toEqual([['waxed twine', 2]]);
  });

  it('changed twice: the last time; saved without a change: not again', () => {
    const counted = itemsCountedAt([
      version(1, [twine(60)]),
      version(2, [twine(50)]),
      version(3, [twine(40)]),
      version(4, [twine(40)]),
    ]);
    expect([...counted]).toEqual([['waxed twine', 3]]);
  });

  it('a change taken back: counted as it was before it; a later change counts anew', () => {
    const back = [version(1, [twine(60)]), version(2, [twine(40)]), version(3, [twine(60)])];
    expect([...itemsCountedAt(back)]).toEqual([]);
    expect([...itemsCountedAt([...back, version(4, [twine(50)])])]).toEqual([['waxed twine', 4]]);
  });

  it('an item that comes later counts from then', () => {
    expect([...itemsCountedAt([version(1, [ties]), version(2, [ties, twine(5)])])]).toEqual([['waxed twine', 2]]);
  });

  it.each([[[]], [[version(1, undefined)]], [[version(1, 'none'), version(2, [null, 3])]]])(
    'no locker to speak of: nothing',
    (versions) => {
      expect(itemsCountedAt(versions).size).toBe(0);
    },
  );
});
