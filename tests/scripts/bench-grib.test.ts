import { describe, expect, it } from 'vitest';
import { BENCH_CASES } from '../../scripts/bench-grib/cases.ts';
import { decodeAll, roomFor } from '../../scripts/bench-grib/ours.ts';
import { type BenchRow, formatRow, formatTotals } from '../../scripts/bench-grib/table.ts';
import { scanGrib } from '../../lib/grib/index.ts';
import { smallMessage } from '../grib/sample-message.ts';

const row: BenchRow = {
  title: '5.0 simple, 16 bits',
  file: 'f',
  targetRatio: 1,
  measures: 'values',
  measured: {
    fieldCount: 2,
    refusedCount: 0,
    valueCount: 2000,
    oursPerS: 450e6,
    anchorPerS: 500e6,
    speedRatio: 0.9,
    note: '',
    memoryOctets: null,
  },
  readers: [],
};

describe('BENCH_CASES', () => {
  it('titles: no two the same', () => {
    const titles = BENCH_CASES.map(({ title }) => title);
    expect(new Set(titles).size).toBe(titles.length);
  });
});

describe('decodeAll', () => {
  it('two messages of 12 points: 24 values, all into the same room', () => {
    const file = new Uint8Array(Buffer.concat([smallMessage(), smallMessage()]));
    const room = roomFor(scanGrib(file, 'two'));
    expect(room).toHaveLength(12);
    expect(decodeAll(file, room)).toEqual({ fieldCount: 2, valueCount: 24, refusedCount: 0 });
    expect(room[1]).toBe(-2.25);
  });
});

describe('formatRow', () => {
  it('below the target: says so', () => {
    expect(
      formatRow(row)[0]
        ?.trim()
        .split(/\s{2,}/),
    ).toEqual(['5.0 simple, 16 bits', '2000', '450', '500', '0.90', '1.00', 'short']);
  });

  it('fields refused and another reader: a line for each', () => {
    const readers = [{ name: 'other', verdict: 'wrong' as const, detail: '3 of 4 points wrong', perS: 2e6 }];
    const lines = formatRow({ ...row, measured: { ...row.measured, refusedCount: 1 }, readers });
    expect(lines.slice(1)).toEqual([
      '    1 of 2 fields refused',
      '    other: wrong, 2.00 Mval/s (3 of 4 points wrong)',
    ]);
  });

  it('an index: thousands of messages per second', () => {
    const measured = { ...row.measured, oursPerS: 26_500, anchorPerS: 1660, speedRatio: 16 };
    expect(formatRow({ ...row, measures: 'index', targetRatio: null, measured })[0]).toContain('26.5k');
  });
});

describe('formatTotals', () => {
  it('targets: only rows with a target and a reference count', () => {
    const without = { ...row, measured: { ...row.measured, speedRatio: null, anchorPerS: null } };
    const met = { ...row, measured: { ...row.measured, speedRatio: 1 } };
    expect(formatTotals([row, without, met])).toBe('1 of 2 targets met');
  });
});
