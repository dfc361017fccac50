import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { readyStanding, statusOf, testServer, type TestServer } from './test-server.ts';

let standing: PlanStanding = readyStanding;
let server: TestServer;
beforeAll(async () => {
  server = await testServer(() => standing);
});
afterAll(() => server.close());

const get = (path: string): Promise<Response> => fetch(server.url + path, { redirect: 'manual' });

describe('plan page', () => {
  it('the bill, the reasons, and the page marked in the navigation', async () => {
    const html = await (await get('/plan')).text();
    expect(html).toContain('<a href="/plan" aria-current="page">Plan</a>');
    for (const text of ['Watch bill', 'Why so', 'Drop the mainsail', 'COLREG Rule 5']) expect(html).toContain(text);
  });

  it('every link of it exists, and every part it points to is on the page', async () => {
    const html = await (await get('/plan')).text();
    const paths = new Set(
      [...html.matchAll(/href="(\/[^"]*)"/g)].map(([, path = '']) => path.replaceAll('&amp;', '&')),
    );
    for (const path of paths) expect((await get(path)).status, path).toBe(200);
    const anchors = new Set([...html.matchAll(/href="#([^"]+)"/g)].map(([, id = '']) => id));
    expect(anchors.size).toBeGreaterThan(5);
    for (const id of anchors) expect(html, id).toContain(`id="${id}"`);
  });

  it('while there is none: planning, with a button to stop it', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0, searchShare: 0.5 };
    const html = await (await get('/plan')).text();
    standing = readyStanding;
    expect(html).toContain('Searching: 50 % done.');
    standing = { kind: 'planning', sinceEpochMs: 0, searchNumber: 3, searchShare: 0.5 };
    expect(await (await get('/plan')).text()).toContain('Searching, round 3: 50 % done.');
    standing = { kind: 'planning', sinceEpochMs: 0, searchShare: 0.5, found: { jobCount: 9, holdsShare: 0.859 } };
    expect(await (await get('/plan')).text()).toContain(
      'Searching: 50 % done. Found by now: 9 jobs that hold together in 85 of 100 scenarios.',
    );
    standing = { kind: 'planning', sinceEpochMs: 0, searchShare: 0.5, isStopping: true };
    expect(await (await get('/plan')).text()).toContain('Stopping: the best plan found so far is written up.');
    standing = readyStanding;
    expect(html).toMatch(/<form class="stop" method="post" action="\/plan\/stop">/);
  });
});

describe('a plan that could not be made again', () => {
  it.each(['/plan', '/'])('%s: the old one stands there, with what went wrong over it', async (path) => {
    expect(await (await get(path)).text()).not.toContain('could not be made again');
    const problem = { code: 'passage.not-json', where: 'my.json', what: 'A comma.', expected: 'JSON', remedy: 'Go.' };
    standing = { ...readyStanding, notRenewed: [problem] };
    const html = await (await get(path)).text();
    standing = readyStanding;
    expect(html).toContain('The plan could not be made again: this is the one that stood before');
    for (const text of ['A comma.', 'my.json', 'Drop the mainsail']) expect(html).toContain(text);
  });
});

describe('stopping and making a plan', () => {
  it.each([
    ['/plan/stop', 'stop'],
    ['/plan/again', 'make'],
  ])('POST %s: done once, then back to the page the button stood on', async (path, done) => {
    const before = server.pressed.length;
    const response = await fetch(server.url + path, {
      method: 'POST',
      redirect: 'manual',
      headers: { Referer: `${server.url}/windows?job=drop` },
    });
    expect([response.status, response.headers.get('Location')]).toEqual([303, '/windows?job=drop']);
    expect(server.pressed.slice(before)).toEqual([done]);
  });

  it.each(['/plan/stop', '/plan/again'])('POST %s from a page of others: refused, nothing done', async (path) => {
    const before = server.pressed.length;
    const headers = { 'Sec-Fetch-Site': 'cross-site', Host: server.host };
    expect(await statusOf(server.url + path, { method: 'POST', headers })).toBe(403);
    expect(server.pressed.length).toBe(before);
  });

  it.each(['/plan/stop', '/plan/again'])('GET %s: no such page, nothing done', async (path) => {
    const before = server.pressed.length;
    expect((await get(path)).status).toBe(404);
    expect(server.pressed.length).toBe(before);
  });
});
