/** Speed tables that lie; ranges are those of the passage file, our own. */
import { describe, expect, it } from 'vitest';
import { formatSpeedTableCsv, parseSpeedTableCsv } from '../../lib/boat/index.ts';

const said = (text: string): string => {
  const read = parseSpeedTableCsv(text, 's.csv');
  return read.ok ? JSON.stringify(read.value) : `${read.problems[0].code} ${read.problems[0].where}`;
};
const HEADER = 'twa_deg,tws_kn,boat_speed_kn';

describe('parseSpeedTableCsv', () => {
  it('a number of 400 digits: no number, not an infinite one', () => {
    expect(said(`${HEADER}\n${'9'.repeat(400)},6,4\n`)).toBe('boat.csv-number s.csv, line 2');
    expect(said(`${HEADER}\n50,1e999,4\n`)).toBe('boat.csv-number s.csv, line 2');
  });

  it('a number so small that it is written with an exponent: read back as it was', () => {
    const rows = [{ twaDeg: 50, twsKn: 1e-7, boatSpeedKn: 0 }];
    expect(said(formatSpeedTableCsv(rows))).toBe(JSON.stringify(rows));
  });

  it('more than a million characters: refused by its length', () => {
    expect(said('x'.repeat(1_000_001))).toBe('boat.csv-too-large s.csv');
  });
});
