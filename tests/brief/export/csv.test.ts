import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { planCsv } from '../../../lib/brief/export/index.ts';
import type { Plan } from '../../../lib/planner/index.ts';
import { drawnPlan } from './drawn-plans.ts';
import { names, ODD_NAMES, plan, planNamed } from './exports-fixture.ts';
import { readCsv } from './read-csv.ts';

/** Rows as records by head. */
function rowsOf(of: Plan): Record<string, string>[] {
  const [heads = [], ...records] = readCsv(planCsv(of, names));
  return records.map((record) => Object.fromEntries(heads.map((head, k) => [head, record[k] ?? ''])));
}

describe('planCsv', () => {
  it('the header names every unit', () => {
    const [heads] = readCsv(planCsv(plan, names));
    expect(heads?.slice(0, 6)).toEqual([
      'start_utc',
      'end_utc',
      'start_ship_time',
      'end_ship_time',
      'length_min',
      'kind',
    ]);
    for (const head of ['lat_deg', 'lon_deg', 'deck_wind_p50_kn', 'settle_before_min', 'sleepiness_start_kss'])
      expect(heads).toContain(head);
    expect(new Set(heads).size).toBe(heads?.length);
  });

  it('one row for each entry, in order of time; numbers as the plan has them, no unknown as a zero', () => {
    const rows = rowsOf(plan);
    expect(rows).toHaveLength(plan.entries.length);
    expect(rows.map((row) => row['start_utc'])).toEqual(plan.entries.map(({ startUtc }) => startUtc).toSorted());
    const oil = rows.find((row) => row['job'] === 'oil' && row['kind'] === 'work');
    expect(oil).toMatchObject({
      lat_deg: '-35.2',
      lon_deg: '179.4',
      deck_wind_p10_kn: '6',
      deck_wind_p50_kn: '9',
      deck_wind_p90_kn: '12',
      session: '1',
      sessions: '1',
      steps: 'Brush, wash; oil',
      place: 'deck',
    });
    const sleep = rows.find((row) => row['kind'] === 'sleep');
    expect(sleep).toMatchObject({ deck_wind_p50_kn: '', job: '', session: '', work_time_factor_ratio: '' });
  });

  it('ship’s time stands beside UTC', () => {
    expect(rowsOf(plan)[0]).toMatchObject({
      start_utc: '2026-05-27T20:40Z',
      start_ship_time: '2026-05-28 08:40',
      length_min: '180',
    });
  });

  it.each(['=1+1', '+61 on the phone', '-1 reef', '@home', '\t=tab first', ' =space first', '＝full width'])(
    'a name that a spreadsheet takes for a formula is text: %j',
    (name) => {
      const cells = rowsOf(planNamed(name)).map((row) => row['job_name']);
      expect(cells).toContain(`'${name.trim()}`);
    },
  );

  it('an empty plan: the header alone', () => {
    expect(readCsv(planCsv({ ...plan, entries: [] }, names))).toHaveLength(1);
  });

  it.each(ODD_NAMES)('a name of odd characters stays in its cell: %j', (name) => {
    expect(rowsOf(planNamed(name))).toHaveLength(plan.entries.length);
  });

  it('any plan: the grammar of RFC 4180, a row for each entry, no cell that begins a formula but a number', () => {
    fc.assert(
      fc.property(drawnPlan, (drawn) => {
        const [, ...records] = readCsv(planCsv(drawn, names));
        expect(records).toHaveLength(drawn.entries.length);
        const starts = records.flat().filter((cell) => /^\s*[=+\-@]/.test(cell));
        for (const cell of starts) expect(Number.isFinite(Number(cell)), cell).toBe(true);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('readCsv, the strict reader of these tests', () => {
  it('the examples of RFC 4180, section 2', () => {
    expect(readCsv('aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n')).toEqual([
      ['aaa', 'bbb', 'ccc'],
      ['zzz', 'yyy', 'xxx'],
    ]);
    expect(readCsv('"aaa","b\r\nbb","ccc"\r\nzzz,yyy,xxx\r\n')[0]).toEqual(['aaa', 'b\r\nbb', 'ccc']);
    expect(readCsv('"aaa","b""bb","ccc"\r\n')).toEqual([['aaa', 'b"bb', 'ccc']]);
  });

  it.each(['aaa\n', 'a"b,c\r\n', '"a"b\r\n', 'a,b\r\nc\r\n', '"a\r\n'])('refuses %j', (text) => {
    expect(() => readCsv(text)).toThrow('RFC 4180');
  });
});
