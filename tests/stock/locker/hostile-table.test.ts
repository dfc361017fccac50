/** Locker tables that lie. Form: RFC 4180; bounds are our own. */
import { describe, expect, it } from 'vitest';
import { readLockerCsv } from '../../../lib/stock/index.ts';

const said = (text: string): string => {
  const read = readLockerCsv(text, 'l.csv');
  return read.ok ? 'read' : `${read.problems[0].code} ${read.problems[0].where}: ${read.problems[0].what}`;
};

describe('readLockerCsv', () => {
  it('400 000 columns: refused as a whole, not one by one', () => {
    expect(said('a,'.repeat(400_000))).toBe('stock.csv-too-large l.csv: The header has 400001 columns.');
    expect(said('item;'.repeat(101))).toBe('stock.csv-too-large l.csv: The header has 102 columns.');
  });

  it('90 000 rows, a megabyte of quotes: refused', () => {
    expect(said(`item,amount,unit\n${'twine,1,m\n'.repeat(90_000)}`)).toMatch(/^stock\.csv-too-large l\.csv: /);
    expect(said('"'.repeat(1_000_000))).toMatch(/^stock\.csv-/);
  });
});
