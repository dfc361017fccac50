import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { plan } from './fixture-plan.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
let html = '';
let panel = '';
beforeAll(async () => {
  server = await testServer();
  html = await (await fetch(`${server.url}/plan/watchkeeper`)).text();
  panel = /<section class="watchkeeper".*?<\/section>/s.exec(html)?.[0] ?? '';
});
afterAll(() => server.close());

const count = (pattern: RegExp): number => panel.match(pattern)?.length ?? 0;

describe('watchkeeper page', () => {
  it('can be pointed at, and carries its heading as its name', () => {
    expect(panel).toContain('aria-labelledby="watchkeeper-title"');
    expect(panel).toContain('<h1 class="what" id="watchkeeper-title">Watchkeeper</h1>');
  });

  it.each(['desk', 'phone'])('drawing for the %s: an image with title and description', (kind) => {
    expect(panel).toContain(`role="img" aria-labelledby="watch-${kind}-title watch-${kind}-desc"`);
    expect(panel).toMatch(new RegExp(`<title id="watch-${kind}-title">How awake you are</title>`));
    expect(panel).toMatch(new RegExp(`<desc id="watch-${kind}-desc">From .*in the table below\\.</desc>`));
  });

  it('gate lines, low hours and debt are told by words in the drawing, not by colour', () => {
    const drawing = /<svg class="strip watch-desk".*?<\/svg>/s.exec(panel)?.[0] ?? '';
    const words = [...drawing.matchAll(/<text[^>]*>([^<]*)<\/text>/g)].map(([, text = '']) => text);
    for (const word of [
      'overside 8.15',
      'work 7',
      'sleepiness 8',
      'overside 10',
      'work 12',
      'low hours',
      'Lapses:',
      'debt of many',
      'Fri 29 May',
    ])
      expect(words, word).toContain(word);
    const dashes = new Set([...drawing.matchAll(/class="limit (gate-\w+)"/g)].map(([, kind]) => kind));
    expect([...dashes]).toEqual(['gate-hard', 'gate-deck', 'gate-any']);
    expect(drawing).toContain('url(#watch-desk-low)');
  });

  it('hour by hour in a folded table with row and column heads', () => {
    const figures = /<details class="figures">.*?<\/details>/s.exec(panel)?.[0] ?? '';
    expect(figures).toContain('<summary>The same in figures, every hour</summary>');
    expect(figures).toContain('aria-label="Alertness hour by hour"');
    expect(figures.match(/<th scope="row">/g)).toHaveLength(plan.watch.hours.length);
    expect(figures).toContain('<th scope="col">Alertness, points</th>');
  });

  it('tables keep their roles where the phone lays them out as blocks', () => {
    for (const name of ['What each sleep buys', 'Sleep in each 24 hours', 'Rest rules, for information'])
      expect(panel).toContain(`aria-label="${name}"`);
    expect(count(/<table role="table"/g)).toBe(3);
    expect(count(/<tr [^>]*role="row"/g)).toBe(
      3 + plan.watch.sleeps.length + plan.watch.days.length + plan.watch.restRules.length,
    );
  });

  it('rest rules and the look-out rule stand open; what is folded is figures and factors only', () => {
    const open = panel.replaceAll(/<details.*?<\/details>/gs, '');
    for (const text of [...plan.watch.notes, 'STCW: rest in any 24 hours', 'short by 3.5 h'])
      expect(open).toContain(text);
    expect(open).toContain('While you sleep nobody keeps the look-out');
    expect(count(/<details/g)).toBe(1 + plan.entries.filter(({ factors }) => factors.length > 0).length);
  });

  it('a day below the least: a mark hidden from the ear, and the words', () => {
    expect(panel).toMatch(/<span class="mark-shape" aria-hidden="true">○<\/span> below the least by 24 min/);
  });

  it('factors: one line to each piece of work, where to change them, and their basis', () => {
    expect(panel).toMatch(
      /<summary><b>Drop the mainsail<\/b>, Thu 13:00: × 1\.15 together \(tiredness 1\.15\)<\/summary>/,
    );
    expect(panel).toContain('watchkeeper.timeFactors');
    for (const basis of ['published', 'common practice', 'our choice', 'your own'])
      expect(panel).toContain(`<small class="basis">${basis}</small>`);
  });

  it('no page says that a plan complies with a rule', async () => {
    for (const path of ['/', '/plan', '/plan/watchkeeper', '/windows?job=drop'])
      expect(await (await fetch(server.url + path)).text(), path).not.toMatch(/complian|complies|comply/i);
  });

  it.each(['/', '/plan', '/windows?job=drop'])('%s shows sleep: COLREG Rule 5 is said with it', async (path) => {
    const strip =
      /<section class="hours".*?<\/section>/s.exec(await (await fetch(server.url + path)).text())?.[0] ?? '';
    expect(strip).toMatch(/<p class="strip-lookout">[^<]*COLREG Rule 5/);
  });

  it('print: hatch for sleep instead of a tone', async () => {
    const sheet = await (await fetch(`${server.url}/static/slatch.css`)).text();
    expect(sheet).toMatch(/@media print \{[^]*\.watch-chart \.block\.sleep \{\s*fill: url\(#watch-desk-sleep\)/);
    expect(panel).toContain('<pattern id="watch-desk-sleep"');
  });
});
