/** Where a form was refused the browser stands at the form's address: it leads back to its page. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FORM_PAGES } from '../../server/routes/form-addresses.ts';
import { getRoutes, postRoutes } from '../browser/routes-of.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const post = (to: string, fields: Readonly<Record<string, string>>, from = ''): Promise<Response> =>
  fetch(server.url + to, {
    method: 'POST',
    body: new URLSearchParams(fields),
    headers: { Origin: server.url, Referer: server.url + from },
    redirect: 'manual',
  });

/** Buttons that cannot be refused: the browser never stands there. */
const ALWAYS_LEAD_ON = ['/forecast/fetch/stop', '/plan/again', '/plan/stop', '/style', '/trial/leave', '/trial/stop'];

describe('addresses of forms', () => {
  it('every one has a page of its own or leads to one', () => {
    const pages = new Set(getRoutes());
    const without = postRoutes().filter((path) => !pages.has(path) && !Object.hasOwn(FORM_PAGES, path));
    expect(without.toSorted()).toEqual(ALWAYS_LEAD_ON);
    expect(Object.keys(FORM_PAGES).filter((path) => !postRoutes().includes(path))).toEqual([]);
    expect(Object.values(FORM_PAGES).filter((path) => !pages.has(path.split('#')[0] ?? ''))).toEqual([]);
  });

  it.each([
    ['/messages/read', '/messages#read'],
    ['/passage/track/gpx', '/passage/track#gpx'],
    ['/jobs/oil/text', '/jobs/oil/edit'],
    ['/jobs/a%2Fb/lock', '/jobs/a%2Fb/hours'],
    ['/log/tap', '/log'],
  ])('%s loaded again: its page', async (path, page) => {
    const answer = await fetch(server.url + path, { redirect: 'manual' });
    expect([answer.status, answer.headers.get('location')]).toEqual([303, page]);
  });

  it('the night display pressed where a text was refused: that page by night, no missing page', async () => {
    expect((await post('/passage/track/gpx', { gpx: 'no GPX', do: 'look', version: '1.1' })).status).toBe(422);
    const back = (await post('/style', { style: 'night' }, '/passage/track/gpx')).headers.get('location') ?? '';
    const page = await fetch(server.url + back);
    expect([page.status, new URL(page.url).pathname]).toEqual([200, '/passage/track']);
  });
});
