import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { picture } from './fixture-plan.ts';
import { readyStanding, testServer, type TestServer } from './test-server.ts';

let standing: PlanStanding = readyStanding;
let server: TestServer;
beforeAll(async () => {
  server = await testServer(() => standing);
});
afterAll(() => server.close());

const get = (path: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(server.url + path, { headers, redirect: 'manual' });
const html = async (path: string): Promise<string> => (await get(path)).text();
const jobShown = (page: string): string => /id="windows-what">([^<]*)</.exec(page)?.[1] ?? 'none';
const chosenOption = (page: string, id: string): string =>
  new RegExp(
    `id="choose-${id}".*?<option[^>]*selected[^>]*value="([^"]*)"|id="choose-${id}".*?<option[^>]*value="([^"]*)"[^>]*selected`,
    's',
  )
    .exec(page)
    ?.slice(1)
    .find((value) => value !== undefined) ?? 'none';

describe('windows page', () => {
  it('nothing asked for: the next job under its planned handling', async () => {
    const page = await html('/windows');
    expect([jobShown(page), chosenOption(page, 'handling')]).toEqual(['Drop the mainsail', 'run-off']);
    expect(page).toContain('<a href="/windows" aria-current="page">Windows</a>');
  });

  it('job and handling asked for: those', async () => {
    const page = await html('/windows?job=stitch&handling=hold-course');
    expect([jobShown(page), chosenOption(page, 'handling')]).toEqual(['Stitch the leech, two rows', 'hold-course']);
    expect(page).toMatch(/Start between Fri 07:20 and|Start between \w{3} \d\d:\d\d and/);
  });

  it('part asked for: that part', async () => {
    expect(chosenOption(await html('/windows?job=make&part=2'), 'part')).toBe('2');
  });

  it('htmx wants a part: the main alone', async () => {
    expect(await (await get('/windows?job=stitch', { 'HX-Request-Type': 'partial' })).text()).toMatch(
      /^<main id="passage" class="windows-page">/,
    );
  });

  it('fields of the form left empty: as if not asked for', async () => {
    expect((await get('/windows?job=&part=&handling=&start=')).status).toBe(200);
  });

  it.each([
    ['/windows?job=drip', 404, /no job “drip”\. Expected: one of drop, oil, .*Did you mean “drop”\?/],
    ['/windows?job=drop&part=2', 404, /has no part “2”\. Expected: 1\./],
    ['/windows?job=make&part=0', 404, /has no part “0”\. Expected: a whole number from 1 to 2\./],
    [
      '/windows?job=drop&handling=run-of',
      404,
      /not worked under “run-of”.*one of run-off, hold-course.*Did you mean “run-off”/,
    ],
    ['/windows?job=drop&start=noon', 400, /"noon" is not an instant\..*ISO 8601/],
    ['/windows?job=drop&start=2026-13-28T01:00Z', 400, /is not an instant/],
    ['/windows?job=drop&start=2026-05-28T01:00', 400, /is not an instant/],
    ['/windows?job=drop&ship=28.5.+13:00', 400, /not a time on the ship’s clock\. Expected: date, T and time/],
    ['/windows?job=drop&start=2027-01-01T00:00Z', 400, /Expected: from 2026-05-27T20:20Z to 2026-05-31T20:20Z/],
  ])('%s: %d, and what was expected', async (path, status, said) => {
    const response = await get(path);
    const text = (await response.text()).replaceAll('&quot;', '"');
    expect(response.status).toBe(status);
    expect(text).toMatch(said);
    expect(text).toContain('To the passage');
  });

  it('markup in what was asked: shown as text', async () => {
    const text = await html(`/windows?job=${encodeURIComponent('<b data-bad>')}`);
    expect(text).toContain('&lt;b data-bad>');
    expect(text).not.toContain('<b data-bad>');
  });

  it('planning, failed: as on every page, and asked for again under the same address', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0 };
    const page = await html('/windows?job=hoist&start=2026-05-28T01:00Z');
    standing = { kind: 'stopped' };
    const stopped = await html('/windows');
    standing = readyStanding;
    expect(page).toContain('hx-get="/windows?job=hoist&amp;start=2026-05-28T01:00Z"');
    expect(page).toContain('action="/plan/stop"');
    expect(stopped).toContain('action="/plan/again"');
  });
});

describe('a look at one start', () => {
  it('in UTC: verdict with its figure and error, what breaks, how often and when', async () => {
    const page = await html('/windows?job=drop&start=2026-05-28T01:00Z');
    expect(/id="start-title">(.*?)<\/h2>/.exec(page)?.[1]).toBe('Thu 28 May 13:00 <small>Thu 01:00 UTC</small>');
    expect(/<p class="verdict">(.*?)<\/p>/.exec(page)?.[1]).toBe(
      'Stays inside its limits in only 61 of 100 ± 7; you want 65: gust over the deck breaks in 35 of 100, first at Thu 13:40.',
    );
  });

  it('on the ship’s clock: the same start', async () => {
    const page = await html('/windows?job=drop&ship=2026-05-28T13:00');
    expect(/id="start-title">(.*?)<\/h2>/.exec(page)?.[1]).toBe('Thu 28 May 13:00 <small>Thu 01:00 UTC</small>');
  });

  it('links a little earlier and later lead to starts that exist, and none leads out of the forecast', async () => {
    const first = new Date(picture.slotEpochMs[0] ?? 0).toISOString().replace(':00.000Z', 'Z');
    const page = await html(`/windows?job=drop&start=${first}`);
    const moves = [...page.matchAll(/<a id="move-([\w-]+)" href="([^"]+)"/g)];
    expect(moves.map(([, name]) => name)).toEqual(['10-min-later', '1-h-later']);
    for (const [, , href = ''] of moves) expect((await get(href.replaceAll('&amp;', '&'))).status).toBe(200);
  });
});
