import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { asItWas, csvText, withoutFormula } from '../../../lib/csv/index.ts';
import { csvRows, type CsvDelimiter } from '../../../lib/stock/locker/csv-rows.ts';

const cellsOf = (text: string, delimiter: CsvDelimiter = ','): unknown => {
  const rows = csvRows(text, delimiter, 't.csv');
  return rows.ok
    ? rows.value.map(({ cells }) => cells.map((cell) => cell.text))
    : rows.problems.map(({ where }) => where);
};

describe('csvRows', () => {
  // RFC 4180, section 2, the examples of rules 1, 2, 5, 6 and 7.
  it.each([
    [
      'rule 1, a line end after every row',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 2, none after the last',
      'aaa,bbb,ccc\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 5, cells in quotes',
      '"aaa","bbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'bbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    [
      'rule 6, a line end in quotes',
      '"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx',
      [
        ['aaa', 'b\r\nbb', 'ccc'],
        ['zzz', 'yyy', 'xxx'],
      ],
    ],
    ['rule 7, a quote inside', '"aaa","b""bb","ccc"', [['aaa', 'b"bb', 'ccc']]],
  ])('RFC 4180 %s: the cells of the example', (_, text, rows) => {
    expect(cellsOf(text)).toEqual(rows);
  });

  it('tables written by another program (the csv module of Python): cell by cell as that program had them', () => {
    const file = new URL('../../golden/stock/csv-tables.json', import.meta.url);
    const { tables } = JSON.parse(readFileSync(file, 'utf8')) as {
      readonly tables: readonly {
        readonly delimiter: CsvDelimiter;
        readonly text: string;
        readonly rows: string[][];
      }[];
    };
    expect(tables).toHaveLength(24);
    for (const { delimiter, text, rows } of tables)
      expect(cellsOf(text, delimiter), JSON.stringify(text)).toEqual(rows);
  });

  it('a byte order mark, LF alone, rows of nothing: passed over, and rows keep their number', () => {
    const rows = csvRows('\uFEFFa,b\n,\n\nc,d\n', ',', 't.csv');
    expect(rows.ok && rows.value.map(({ rowNumber }) => rowNumber)).toEqual([1, 4]);
  });

  it.each([
    ['no closing quote', 'a,b\r\nc,"d', 't.csv, row 2, cell 2'],
    ['text after the closing quote', 'a,b\r\n"c"x,d', 't.csv, row 2, cell 1'],
    ['a quote inside a bare cell', 'a,b\r\nc,12" rod', 't.csv, row 2, cell 2'],
  ])('%s: refused at its cell', (_, text, where) => {
    expect(cellsOf(text)).toEqual([where]);
  });

  it('a long cell in quotes: read without running out of stack', () => {
    const long = 'x""'.repeat(100_000);
    expect(cellsOf(`"${long}"`)).toEqual([[long.replaceAll('""', '"')]]);
  });
});

describe('csvText', () => {
  // RFC 4180, section 2, rules 6 and 7.
  it('cells with quotes, commas or line ends: in quotes, quotes doubled; CRLF after every row', () => {
    expect(csvText([['a', 'b"c', 'd,e', 'f\ng', ' h']])).toBe('a,"b""c","d,e","f\ng"," h"\r\n');
  });
});

describe('formulas', () => {
  // CWE-1236, potential mitigations: = + - @ at the beginning of a cell get an apostrophe before them.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)'])('%s: written with an apostrophe, which is taken off again', (text) => {
    expect(withoutFormula(text)).toBe(`'${text}`);
    expect(asItWas(withoutFormula(text))).toBe(text);
  });

  it.each(["'=1", "''-x"])('%s, which begins like one already guarded: comes back as it was', (text) => {
    expect(withoutFormula(text)).not.toBe(text);
    expect(asItWas(withoutFormula(text))).toBe(text);
  });

  it.each(['a=1', "'tis", '', 'x-y'])('%s: left alone', (text) => {
    expect(withoutFormula(text)).toBe(text);
    expect(asItWas(text)).toBe(text);
  });
});
