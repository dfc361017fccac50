import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlanStanding } from '../../server/deps.ts';
import { readyStanding, statusOf, testServer, type TestServer } from './test-server.ts';

let standing: PlanStanding | 'broken' = readyStanding;
let server: TestServer;

beforeAll(async () => {
  server = await testServer(() => {
    if (standing === 'broken') throw new Error('secret of the engine room');
    return standing;
  });
});
afterAll(() => server.close());

const get = (path: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(server.url + path, { headers, redirect: 'manual' });

const post = (body: string, headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(`${server.url}/style`, {
    method: 'POST',
    body,
    redirect: 'manual',
    headers: { 'Content-Type': 'application/x-www-form-urlencoded', ...headers },
  });

describe('passage page', () => {
  it('no job asked for: the next one', async () => {
    const html = await (await get('/')).text();
    expect(html).toContain('<h1 class="what" id="next-what">Drop the mainsail</h1>');
  });

  it('?job=: that job, as a whole page', async () => {
    const html = await (await get('/?job=hoist')).text();
    expect(html).toMatch(/^<!doctype html>/);
    expect(html).toContain('<h1 class="what" id="next-what">Hoist to the deep reef</h1>');
  });

  it.each(['/?job=nothing-like-it', '/?job=drop&job=hoist', '/?job[x]=1'])('%s: the next job', async (path) => {
    expect(await (await get(path)).text()).toContain('id="next-what">Drop the mainsail');
  });

  it('htmx wants a part: the main alone; back button and plain browsers: the document', async () => {
    expect(await (await get('/?job=hoist', { 'HX-Request-Type': 'partial' })).text()).toMatch(/^<main/);
    expect(await (await get('/', { 'HX-Request-Type': 'full', 'HX-History-Restore-Request': 'true' })).text()).toMatch(
      /^<!doctype html>/,
    );
  });

  it('answers differ by part and by style, and none is kept', async () => {
    const { headers } = await get('/');
    expect(headers.get('Vary')).toMatch(/HX-Request-Type.*Cookie/);
    expect(headers.get('Cache-Control')).toBe('no-store');
    expect(headers.get('X-Powered-By')).toBeNull();
  });

  it('no page that does not exist is linked', async () => {
    const html = await (await get('/')).text();
    const paths = new Set([...html.matchAll(/(?:href|src)="(\/[^"]*)"/g)].map(([, path = '']) => path));
    expect(paths.size).toBeGreaterThan(10);
    for (const path of paths) expect((await get(path)).status, path).toBe(200);
  });
});

describe('while there is no plan', () => {
  it('still planning: answers at once and says so', async () => {
    standing = { kind: 'planning', sinceEpochMs: 0 };
    const html = await (await get('/?job=hoist')).text();
    standing = readyStanding;
    expect(html).toContain('Planning…');
    expect(html).toContain('hx-get="/?job=hoist"');
  });

  it('no plan possible: the problems', async () => {
    const problem = { code: 'x.y', where: 'file.json', what: 'Bad.', expected: 'good', remedy: 'Mend it.' };
    standing = { kind: 'failed', problems: [problem] };
    const html = await (await get('/')).text();
    standing = readyStanding;
    expect(html).toContain('Mend it.');
  });
});

describe('errors', () => {
  it('unknown address: 404 with a way back', async () => {
    const response = await get('/planet');
    expect(response.status).toBe(404);
    expect(await response.text()).toContain('<a href="/">To the passage</a>');
  });

  it('our own mistake: 500, reported, none of its words on the page; a part where a part was wanted', async () => {
    standing = 'broken';
    const page = await get('/');
    const part = await get('/', { 'HX-Request-Type': 'partial' });
    standing = readyStanding;
    const [whole, alone] = [await page.text(), await part.text()];
    expect([page.status, part.status]).toEqual([500, 500]);
    expect(whole + alone).not.toMatch(/secret|at .*\.ts/);
    expect(alone).toMatch(/^<main/);
    expect(server.reported).toHaveLength(2);
  });

  it.each([
    '/static/../../package.json',
    '/static/%2e%2e/%2e%2e/package.json',
    '/static/',
    '/fonts/none.woff2',
    '/%ff',
  ])('%s: no file', async (path) => {
    expect(await statusOf(server.url + path, { headers: { Host: server.host } })).toBeGreaterThanOrEqual(400);
  });
});

describe('display style', () => {
  it('night chosen: kept in a cookie, back to the page it was chosen on', async () => {
    const response = await post('style=night', { Referer: `${server.url}/?job=hoist` });
    expect([response.status, response.headers.get('Location')]).toEqual([303, '/?job=hoist']);
    expect(response.headers.get('Set-Cookie')).toMatch(/^slatch_style=night; .*HttpOnly; SameSite=Strict/);
  });

  it('cookie: night, until day is chosen', async () => {
    expect(await (await get('/', { Cookie: 'a=b; slatch_style=night' })).text()).toContain('class="night"');
    expect(await (await get('/', { Cookie: 'slatch_style=day' })).text()).toContain('class="day"');
    expect(await (await get('/', { Cookie: 'slatch_style=nightly; x=slatch_style=night' })).text()).toContain(
      'class="day"',
    );
  });

  it.each(['https://elsewhere.example/', '//elsewhere.example', 'http://127.0.0.1:1/'])(
    'came from %s: back to the passage, never there',
    async (referer) => {
      expect((await post('style=day', { Referer: referer })).headers.get('Location')).toBe('/');
    },
  );

  it('own address with two slashes: stays on this server', async () => {
    const response = await post('style=day', { Referer: `${server.url}//elsewhere.example` });
    expect(response.headers.get('Location')).toBe('/elsewhere.example');
  });

  it.each(['style=dusk', '', 'style[a]=night'])('%s: refused', async (body) => {
    expect((await post(body)).status).toBe(400);
  });
});
