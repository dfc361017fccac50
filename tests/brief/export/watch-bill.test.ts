import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { watchBillText } from '../../../lib/brief/export/index.ts';
import { columnCount, wrapped } from '../../../lib/brief/export/text-columns.ts';
import type { Plan } from '../../../lib/planner/index.ts';
import { drawnPlan } from './drawn-plans.ts';
import { names, ODD_NAMES, plan, planNamed } from './exports-fixture.ts';

const linesOf = (of: Plan): string[] => watchBillText(of, names).split('\n');

describe('watchBillText', () => {
  it('days and hours on the ship’s clock with the weekday, UTC beside them', () => {
    const lines = linesOf(plan);
    const from = lines.indexOf('Thursday 28 May 2026');
    // 20:40 UTC on Wednesday is 08:40 on Thursday where the clock is 12 h ahead.
    expect(lines.slice(from, from + 4)).toEqual([
      'Thursday 28 May 2026',
      'Ship         UTC',
      '08:12-08:40  Wed 20:12-20:40      On watch',
      '08:40-11:40  Wed 20:40-23:40      Sleep, alarm 11:40',
    ]);
    expect(lines.some((line) => line.includes('UTC+12'))).toBe(true);
  });

  it('work has a box to tick, with how and with what wind; decisions and ends of waits have none', () => {
    const text = watchBillText(plan, names).replaceAll(/\n {34}/g, ' ');
    const oil = plan.jobs.find(({ jobId }) => jobId === 'oil')?.name;
    expect(text).toContain(`[ ] ${oil} `);
    expect(text).toContain('headsail only, deck; 9 kn over the deck (6 to 12).');
    expect(text).toContain(`    Wait is over: ${oil}`);
    expect(text.match(/ \[ ] /g)).toHaveLength(plan.entries.filter(({ kind }) => kind === 'work').length);
    expect(text.match(/ {4}DECIDE: /g)).toHaveLength(
      plan.jobs.filter(({ decideByUtc }) => decideByUtc !== null).length,
    );
  });

  it('what is not planned and every caution stand below', () => {
    const text = watchBillText(plan, names).replaceAll('\n  ', ' ');
    for (const { name } of plan.jobs.filter(({ status }) => status === 'unplanned'))
      expect(text).toContain(`- ${name}`);
    for (const caution of plan.cautions) expect(text).toContain(`- ${caution}`);
  });

  it('every hour from the making of the plan to its last entry is told once', () => {
    const spans = linesOf(plan).flatMap(
      (line) => /^\d\d:\d\d-\d\d:\d\d {2}\w{3} (\d\d:\d\d)-(\d\d:\d\d)/.exec(line)?.slice(1, 3) ?? [],
    );
    const [starts, ends] = [spans.filter((_, k) => k % 2 === 0), spans.filter((_, k) => k % 2 === 1)];
    expect(starts[0]).toBe(plan.madeAtUtc.slice(11, 16));
    expect(starts.slice(1)).toEqual(ends.slice(0, -1));
  });

  it('an empty plan says so', () => {
    expect(linesOf({ ...plan, entries: [], jobs: [] })).toContain('Nothing is planned.');
  });

  it.each(ODD_NAMES)('a name of odd characters: no line beyond 80 columns, no control: %j', (name) => {
    for (const line of linesOf(planNamed(name))) expect(columnCount(line), line).toBeLessThanOrEqual(80);
    expect(watchBillText(planNamed(name), names)).not.toMatch(/(?!\n)\p{Control}/u);
  });

  it('any plan: 80 columns at most, and a box for each session of work', () => {
    fc.assert(
      fc.property(drawnPlan, (drawn) => {
        const lines = linesOf(drawn);
        for (const line of lines) expect(columnCount(line), line).toBeLessThanOrEqual(80);
        const boxes = lines.filter((line) => /^\d\d:\d\d-\d\d:\d\d {2}\w{3} \d\d:\d\d-\d\d:\d\d {2}\[ ]/.test(line));
        expect(boxes).toHaveLength(drawn.entries.filter(({ kind }) => kind === 'work').length);
      }),
      { seed: 7, numRuns: 60 },
    );
  });
});

describe('columnCount', () => {
  it.each([
    // Unicode Standard Annex 11 (East Asian Width): wide and full-width take two columns, combining marks none.
    ['batten', 6],
    ['補修', 4],
    ['ｗ', 2],
    ['e\u0301', 1],
    ['🧵', 2],
  ])('%s', (text, count) => {
    expect(columnCount(text)).toBe(count);
  });
});

describe('wrapped', () => {
  it('breaks at spaces, and inside a word longer than the line', () => {
    expect(wrapped('ease the halyard', 8)).toEqual(['ease the', 'halyard']);
    expect(wrapped('a preventers', 6)).toEqual(['a', 'preven', 'ters']);
    expect(wrapped('', 6)).toEqual(['']);
  });
});
