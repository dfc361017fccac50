import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { fieldsOf, textOf } from './sent-forms.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
  const form = fieldsOf(await (await fetch(`${server.url}/log/new/observation`)).text());
  const seenThen = { ...form, position: '36 18.2 S 178 06.0 E', 'wind.speedKn': '18', seaHeightM: '2', airC: '15' };
  await fetch(`${server.url}/log/new/observation`, { method: 'POST', body: new URLSearchParams(seenThen) });
});
afterAll(() => server.close());

const pages = new Map<string, Promise<string>>();

/** A page, asked for once; `units` null: without a cookie. */
function pageIn(path: string, units: string | null): Promise<string> {
  const key = `${path} ${units ?? ''}`;
  const page = pages.get(key) ?? asked(path, units);
  pages.set(key, page);
  return page;
}

async function asked(path: string, units: string | null): Promise<string> {
  const headers = units === null ? {} : { Cookie: `slatch_units=${units}` };
  const answer = await fetch(server.url + path, { headers });
  expect(answer.status, path).toBe(200);
  // A form's token is another every time.
  return (await answer.text()).replaceAll(/token-\d+/g, 'token');
}

/** What is read, without what is told to the style sheet or the address. */
const seen = (html: string): string =>
  `${textOf(html)} ${[...html.matchAll(/(?:title|aria-label)="([^"]*)"/g)].map(([, text]) => text).join(' ')}`;

const LOOK = '/windows?job=drop&part=1&handling=run-off&start=2026-05-27T21:20Z';
const PAGES = ['/', '/plan', LOOK, '/jobs', '/jobs/drop', '/forecast', '/log', '/locker'];

/** Amounts of wind in kn; speeds of boat and current stay. */
const WIND_IN_KN =
  /(?:wind|gusts?|no-go|caution|ideal|deck|up to)[^.;\d]{0,30}\d+(?:\.\d+)?\s(?:\(\S+ to \S+\) )?kn\b/gi;

describe('pages in other units', () => {
  it.each(PAGES)('%s: with kn, m and °C chosen it is as without a choice', async (path) => {
    expect(await pageIn(path, 'kn.m.c')).toBe(await pageIn(path, null));
  });

  it.each(PAGES)('%s in m/s: no wind is left in kn', async (path) => {
    expect(seen(await pageIn(path, 'mps.ft.f')).match(WIND_IN_KN) ?? []).toEqual([]);
  });

  it.each(['/', '/plan', LOOK, '/jobs', '/jobs/drop', '/log'])('%s in kn: there was wind to convert', async (path) => {
    expect(seen(await pageIn(path, null)).match(WIND_IN_KN)).not.toBeNull();
  });

  it.each(['/', '/plan', LOOK])('%s: strip, its ticks, limits, names and table', async (path) => {
    const html = await pageIn(path, 'mps.ft.f');
    expect(html).toMatch(/class="unit"[^>]*>m\/s</);
    expect(html).toMatch(/class="unit"[^>]*>ft</);
    expect(html).not.toMatch(/class="unit"[^>]*>(?:kn|m)</);
    expect(seen(html)).toMatch(/Deck wind, m\/s/);
    expect(seen(html)).toMatch(/Sea, ft/);
    expect(seen(html)).not.toMatch(/Deck wind, kn|Sea, m\b/);
  });

  it('windows: room of 4.19 kn (2.155 m/s) is never said to be more, and has no force', async () => {
    const row = /wind over the deck binds, ([\d.]+ \S+),/;
    const rooms = await Promise.all(['kn.m.c', 'mps.ft.f', 'bft.m.c'].map((units) => pageIn(LOOK, units)));
    expect(rooms.map((html) => row.exec(seen(html))?.[1])).toEqual(['4.1 kn', '2.1 m/s', '4.1 kn']);
  });

  it('windows: limits, the look at a start and the hours in Beaufort with knots', async () => {
    const text = seen(await pageIn(LOOK, 'bft.m.c'));
    expect(text).toMatch(/Bft \d+, \d+ kn/);
    expect(text).toContain('Deck wind, Bft and kn');
    expect(await pageIn(LOOK, 'bft.m.c')).toMatch(/class="unit"[^>]*>Bft</);
  });

  it('jobs: limits of a step', async () => {
    expect(seen(await pageIn('/jobs/drop', 'mps.ft.f'))).toMatch(/wind over the deck [\d.]+ \/ [\d.]+ \/ [\d.]+ m\/s/);
  });

  it('log: what was seen, as it was written and in other units', async () => {
    expect(seen(await pageIn('/log', null))).toMatch(/wind 18\skn, sea 2\sm, air 15\s°C/);
    expect(seen(await pageIn('/log', 'mps.ft.f'))).toMatch(/wind 9\.3\sm\/s, sea 6\.6\sft, air 59\s°F/);
    expect(seen(await pageIn('/log', 'bft.m.c'))).toMatch(/wind Bft 5, 18\skn, sea 2\sm/);
  });

  it('plan: the watch bill', async () => {
    expect(seen(await pageIn('/plan', 'mps.ft.f'))).toMatch(/[\d.]+ m\/s \([\d.]+ to [\d.]+\)/);
  });

  it('forms stay in kn, m and °C', async () => {
    for (const path of ['/jobs/drop/edit', '/passage/boat'])
      expect(await pageIn(path, 'mps.ft.f'), path).toBe(await pageIn(path, null));
  });

  it('files stay in kn, m and °C', async () => {
    for (const path of ['/plan.csv', '/plan.ics', '/plan.txt', '/log.csv'])
      expect(await pageIn(path, 'mps.ft.f'), path).toBe(await pageIn(path, null));
  });
});
