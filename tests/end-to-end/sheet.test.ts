/** `slatch sheet`: the deck sheet of one job as text and as JSON, by the same numbers as the plan. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { DeckSheet } from '../../lib/brief/index.ts';
import type { Plan } from '../../lib/planner/index.ts';
import { jobOf } from './plan-rules.ts';
import { type Ran, slatch } from './run-slatch.ts';
import { deckJob, forecastOctets, removeFolders, writePassage } from './small-passage.ts';

afterAll(removeFolders);

describe('slatch sheet', () => {
  let file = '';
  let [text, json, plan]: Ran[] = [];
  beforeAll(async () => {
    file = writePassage({ forecast: forecastOctets(), passage: { jobs: [deckJob('lash')] } });
    [text, json, plan] = await Promise.all([
      slatch('sheet', file, '--job', 'lash'),
      slatch('sheet', file, '--job', 'lash', '--json'),
      slatch('plan', file, '--json'),
    ]);
  });

  it('as text: every part in its place, no line wider than 80 columns, nothing on standard error but progress', () => {
    expect(text?.code).toBe(0);
    const lines = (text?.out ?? '').split('\n');
    expect(lines[0]).toBe('DECK SHEET: Job lash');
    const heads = ['WINDOW', 'NUMBERS', 'GO', 'THE BOAT', 'STEPS', 'STOP', 'IF YOU STOP', 'TELL', 'AFTER', 'CAUTIONS'];
    const places = heads.map((head) => lines.findIndex((line) => line.startsWith(head)));
    expect(places.filter((place) => place < 0)).toEqual([]);
    expect(places).toEqual(places.toSorted((a, b) => a - b));
    expect(lines.filter((line) => line.length > 80)).toEqual([]);
  });

  it('as JSON: the stop numbers of the plan’s own start check', () => {
    const sheet = JSON.parse(json?.out ?? '') as DeckSheet;
    const check = jobOf(JSON.parse(plan?.out ?? '') as Plan, 'lash').startCheck;
    expect(sheet.jobId).toBe('lash');
    // The step ends at 16 kn on deck and 2.2 m of sea; running off ends later.
    expect(check?.stop).toMatchObject({ deckWindKn: 16, seaM: 2.2 });
    expect(sheet.stop[0]).toBe(`If the mean wind is ${check?.stop.instrumentWindKn} kn (16 on deck), then stop.`);
    expect(sheet.stop).toContain('If the sea is 2.2 m, then stop.');
  });

  it('--help: how it is called, with an example that can be typed', async () => {
    const { code, out, err } = await slatch('sheet', '--help');
    expect({ code, err }).toEqual({ code: 0, err: '' });
    expect(out).toContain('slatch sheet PASSAGE --job ID');
    expect(out).toContain('  slatch sheet sample-forecasts/demo-passage.json --job drop\n');
  });

  it('no job, or one there is none of: exit code 2, and which there are', async () => {
    const none = await slatch('sheet', file);
    expect([none.code, none.err.includes('--job is missing')]).toEqual([2, true]);
    const wrong = await slatch('sheet', file, '--job', 'lsah');
    expect([wrong.code, wrong.err.includes('expected one of lash')]).toEqual([2, true]);
  });
});
