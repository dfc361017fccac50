import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  LOCKER_ITEM_DEFAULTS,
  LOCKER_KINDS,
  lockerCsv,
  readLockerCsv,
  type LockerItem,
} from '../../../lib/stock/index.ts';

// The columns and their rules are ours.

const read = (text: string): readonly LockerItem[] => {
  const locker = readLockerCsv(text, 'l.csv');
  if (!locker.ok) throw new Error(JSON.stringify(locker.problems));
  return locker.value.items;
};
const problemsOf = (text: string) => {
  const locker = readLockerCsv(text, 'l.csv');
  return locker.ok ? [] : locker.problems;
};
const codesOf = (text: string) => problemsOf(text).map(({ code, where }) => [code, where]);

const HEADER = 'item,kind,amount,unit,keep,place,length_mm,diameter_mm,ready_utc';

describe('a locker as a table', () => {
  it('written: a header with units, and a line for each item', () => {
    const items: LockerItem[] = [
      {
        ...LOCKER_ITEM_DEFAULTS,
        item: 'waxed twine',
        unit: 'm',
        onBoardAmount: 60,
        keepAmount: 15,
        place: 'bag 1, port',
      },
      {
        ...LOCKER_ITEM_DEFAULTS,
        item: 'batten rod',
        kind: 'bar',
        unit: 'pieces',
        onBoardAmount: 3,
        lengthMm: 3000,
        diameterMm: 8.5,
        readyEpochMs: Date.UTC(2026, 4, 28, 8),
      },
    ];
    expect(lockerCsv({ items })).toBe(
      `${HEADER}\r\nwaxed twine,material,60,m,15,"bag 1, port",,,\r\nbatten rod,bar,3,pieces,0,,3000,8.5,2026-05-28T08:00Z\r\n`,
    );
  });

  it('three columns in any order, capitals and spaces about them: enough, the rest is default', () => {
    expect(read('Unit, Item ,AMOUNT\nm , waxed twine, 60\n')).toEqual([
      { ...LOCKER_ITEM_DEFAULTS, item: 'waxed twine', unit: 'm', onBoardAmount: 60 },
    ]);
  });

  it('semicolons: read, with decimal comma and with decimal point', () => {
    const items = read('\uFEFFitem;amount;unit;keep;place\r\nbatten sleeve;0,5;m;0.25;tube, port\r\n');
    expect(items).toMatchObject([{ onBoardAmount: 0.5, keepAmount: 0.25, place: 'tube, port' }]);
  });

  it('a decimal comma between commas: refused, since it may part thousands', () => {
    const [problem] = problemsOf('item,amount,unit\nsleeve,"1,500",m\n');
    expect(problem).toMatchObject({ where: 'l.csv, row 2, amount', what: '"1,500" does not fit.' });
    expect(problem?.remedy).toContain('1.500');
  });

  it('a text like a formula: guarded when written, the same when read', () => {
    const items = [{ ...LOCKER_ITEM_DEFAULTS, item: '=2+2', unit: 'm', onBoardAmount: 1, place: '@bow' }];
    expect(lockerCsv({ items })).toContain("\r\n'=2+2,material,1,m,0,'@bow,");
    expect(read(lockerCsv({ items }))).toEqual(items);
  });

  it('any locker: written and read again, it is the same', () => {
    const text = fc
      .string({ unit: 'grapheme', minLength: 1, maxLength: 12 })
      .filter((of) => of.trim() !== '' && /^\P{Cc}*$/u.test(of));
    const guarded = fc
      .tuple(fc.constantFrom('', '=', '-', "'", "'+", '"', ',', ' '), text)
      .map((parts) => parts.join(''));
    const amount = fc.double({ min: 0, max: 1_000_000, noNaN: true }).map((of) => of + 0);
    const size = fc.double({ min: 0.001, max: 1000, noNaN: true });
    const line = fc.record({
      item: guarded,
      kind: fc.constantFrom(...LOCKER_KINDS),
      unit: text,
      onBoardAmount: amount,
      keepAmount: amount,
      place: fc.option(guarded),
      lengthMm: size,
      diameterMm: size,
      readyEpochMs: fc.option(fc.integer({ min: 0, max: 4_000_000_000 }).map((second) => second * 1000)),
    });
    const lockers = fc
      .uniqueArray(line, { maxLength: 8, selector: ({ item }) => item.trim().toLowerCase() })
      .map((lines) =>
        lines.map((of): LockerItem =>
          of.kind === 'bar'
            ? { ...of, unit: 'pieces', onBoardAmount: Math.floor(of.onBoardAmount) }
            : { ...of, lengthMm: null, diameterMm: null },
        ),
      );
    fc.assert(
      fc.property(lockers, (items) => {
        expect(read(lockerCsv({ items }))).toEqual(items);
      }),
      { numRuns: 300, seed: 7 },
    );
  });

  it('any text at all: an answer, never an exception', () => {
    const part = fc.constantFrom(
      'item',
      'amount',
      'unit',
      'kind',
      ',',
      ';',
      '"',
      '\n',
      '\r\n',
      '1',
      '-2',
      'm',
      "'=",
      ' ',
    );
    fc.assert(
      fc.property(fc.array(part, { maxLength: 40 }), (parts) => {
        expect(typeof readLockerCsv(parts.join(''), 'l.csv').ok).toBe('boolean');
      }),
      { numRuns: 500, seed: 8 },
    );
  });
});

describe('a table that is wrong', () => {
  it.each([
    ['empty', '', [['stock.csv-empty', 'l.csv']]],
    ['rows of nothing', '\uFEFF\r\n,,\r\n', [['stock.csv-empty', 'l.csv']]],
    ['a column missing', 'item,amount\nx,1', [['stock.csv-column-missing', 'l.csv, row 1']]],
    ['a column twice', 'item,amount,unit,Item\nx,1,m,y', [['stock.csv-column-twice', 'l.csv, row 1']]],
    ['a cell too many', 'item,amount,unit\nx,1,m,9', [['stock.csv-cells', 'l.csv, row 2']]],
    ['a cell too few', 'item,amount,unit\nx,1', [['stock.csv-cells', 'l.csv, row 2']]],
    ['no amount', 'item,amount,unit\nx,,m', [['stock.csv-cell-empty', 'l.csv, row 2, amount']]],
    ['an amount below nothing', 'item,amount,unit\nx,-1,m', [['stock.csv-value', 'l.csv, row 2, amount']]],
    ['an amount beyond reason', 'item,amount,unit\nx,1e9,m', [['stock.csv-value', 'l.csv, row 2, amount']]],
    ['an amount with its unit', 'item,amount,unit\nx,1 m,m', [['stock.csv-value', 'l.csv, row 2, amount']]],
    ['a line end in a text', 'item,amount,unit\n"x\ny",1,m', [['stock.csv-value', 'l.csv, row 2, item']]],
    [
      'an instant without offset',
      `item,amount,unit,ready_utc\nx,1,m,2026-05-28`,
      [['time.not-an-instant', 'l.csv, row 2, ready_utc']],
    ],
    ['a bar of no length', `${HEADER}\nrod,bar,1,pieces,,,0,8,`, [['stock.csv-value', 'l.csv, row 2, length_mm']]],
    ['a bar without a length', `${HEADER}\nrod,bar,1,pieces,,,,8,`, [['stock.bar-length', 'l.csv, row 2, length_mm']]],
    ['an item twice', 'item,amount,unit\nx,1,m\n X ,2,m', [['stock.item-twice', 'l.csv, row 3, item']]],
    ['no closing quote', 'item,amount,unit\n"x,1,m', [['stock.csv-quote', 'l.csv, row 2, cell 1']]],
  ])('%s: is named by row and column', (_, text, expected) => {
    expect(codesOf(text)).toEqual(expected);
    for (const problem of problemsOf(text)) for (const said of Object.values(problem)) expect(said).not.toBe('');
  });

  it('a column or kind nearly right: the one meant is suggested', () => {
    expect(problemsOf('item,amuont,unit,amount\nx,1,m,1').map(({ remedy }) => remedy)).toEqual([
      'Did you mean "amount"?',
    ]);
    expect(problemsOf('item,amount,unit,kind\nx,1,m,tol').map(({ remedy }) => remedy)).toEqual([
      'Did you mean "tool"?',
    ]);
  });

  it('many bad cells: all of them', () => {
    expect(codesOf(`${HEADER}\nx,tool,one,pieces,-1,,,,\nrod,bar,2,m,,,,8,\n`).map(([code]) => code)).toEqual([
      'stock.csv-value',
      'stock.csv-value',
      'stock.bar-length',
      'stock.bar-unit',
    ]);
  });

  it('more rows than a locker may have: refused with the number', () => {
    const rows = Array.from({ length: 501 }, (_, index) => `item ${index},1,m`).join('\n');
    expect(problemsOf(`item,amount,unit\n${rows}`)).toMatchObject([
      { code: 'stock.csv-too-large', what: 'The table has 501 rows.' },
    ]);
  });
});
