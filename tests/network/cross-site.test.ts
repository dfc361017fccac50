/**
 * Forms from pages of others. `Origin`: RFC 6454 §7, Fetch §3.2 (`null` where it is hidden); `Sec-Fetch-Site`: Fetch Metadata
 * Request Headers, W3C, §2.4: left out by browsers on plain HTTP to another machine.
 */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ACCESS_KEY, ask, keyServer, type KeyServer, postForm, sessionIn } from './with-key.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';

let server: KeyServer;
let session = '';
let port = 0;
beforeAll(async () => {
  server = await keyServer();
  session = sessionIn(await postForm(`${server.url}/key`, { key: ACCESS_KEY }));
  port = Number(new URL(server.url).port);
});
afterAll(() => server.close());

type Headers = Readonly<Record<string, string>>;

/** Presses "plan again" with a session. */
const pressed = async (headers: Headers): Promise<number> =>
  (await ask(`${server.url}/plan/again`, { method: 'POST', headers: { Cookie: session, ...headers } })).status;

describe('a form with a session', () => {
  it.each([
    ['our own page over plain HTTP', (own: string) => ({ Origin: own }), 303],
    ['the same in capitals', (own: string) => ({ Origin: own.toUpperCase() }), 303],
    ['our own page, told twice', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': 'same-origin' }), 303],
    ['the address bar', () => ({ 'Sec-Fetch-Site': 'none' }), 303],
    ['neither said: no browser sends that', () => ({}), 403],
    ['hidden', () => ({ Origin: 'null' }), 403],
    ['empty', () => ({ Origin: '' }), 403],
    ['another site', () => ({ Origin: 'http://evil.example' }), 403],
    ['another port of this machine', () => ({ Origin: `http://127.0.0.1:${port + 1}` }), 403],
    ['no port', () => ({ Origin: 'http://127.0.0.1' }), 403],
    ['another name of this machine', () => ({ Origin: `http://localhost:${port}` }), 403],
    ['this machine as IPv6', () => ({ Origin: `http://[::1]:${port}` }), 403],
    ['this machine as IPv4 in IPv6', () => ({ Origin: `http://[::ffff:127.0.0.1]:${port}` }), 403],
    ['another scheme', (own: string) => ({ Origin: own.replace('http:', 'https:') }), 403],
    ['a longer name', (own: string) => ({ Origin: `${own}.evil.example` }), 403],
    ['ours as a name in front', (own: string) => ({ Origin: own.replace('http://', 'http://evil.example@') }), 403],
    ['ours behind', (own: string) => ({ Origin: `http://evil.example/${own}` }), 403],
    ['ours with a path', (own: string) => ({ Origin: `${own}/` }), 403],
    ['two of them', (own: string) => ({ Origin: `${own}, http://evil.example` }), 403],
    ['a sister site', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': 'same-site' }), 403],
    ['another site that claims our origin', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': 'cross-site' }), 403],
    ['two words', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': 'cross-site, same-origin' }), 403],
    ['the word in capitals', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': 'SAME-ORIGIN' }), 403],
    ['an empty word', (own: string) => ({ Origin: own, 'Sec-Fetch-Site': '' }), 403],
  ] as const)('$0: $2', async (_, headers, code) => {
    const before = server.pressed.length;
    expect(await pressed(headers(server.url))).toBe(code);
    expect(server.pressed.length - before).toBe(code === 303 ? 1 : 0);
  });

  it('a name, as a form of another site could carry the key: nobody is signed in by it', async () => {
    const answer = await postForm(`${server.url}/key`, { key: ACCESS_KEY }, { Origin: 'http://evil.example' });
    expect([answer.status, sessionIn(answer)]).toEqual([403, '']);
  });

  it('a form that signs out, of another site: the session goes on', async () => {
    const answer = await postForm(`${server.url}/key/leave`, {}, { Cookie: session, Origin: 'http://evil.example' });
    expect([answer.status, await pressed({ Origin: server.url })]).toEqual([403, 303]);
  });
});

describe('what other sites could ask', () => {
  /** Fetch §3.2: without Access-Control-Allow-Origin a page of another origin reads nothing and sends nothing unusual. */
  it('whether they may: refused, and nothing is allowed to them', async () => {
    const asked = await ask(`${server.url}/plan/again`, {
      method: 'OPTIONS',
      headers: { Origin: 'http://evil.example', 'Access-Control-Request-Method': 'POST' },
    });
    expect([asked.status, asked.headers['allow']]).toEqual([405, 'GET, HEAD, POST']);
    const page = await ask(server.url, { headers: { Cookie: session, Origin: 'http://evil.example' } });
    for (const { headers } of [asked, page])
      expect(Object.keys(headers).filter((name) => name.startsWith('access-control'))).toEqual([]);
    expect(page.headers['cross-origin-resource-policy']).toBe('same-origin');
    expect(page.headers['content-security-policy']).toContain("frame-ancestors 'none'");
  });

  it.each(['PUT', 'DELETE', 'PATCH', 'TRACE', 'PROPFIND', 'OPTIONS'])(
    '%s: refused before anything else',
    async (method) => {
      const answer = await ask(`${server.url}/jobs`, { method, headers: { Cookie: session, Origin: server.url } });
      expect([answer.status, answer.headers['allow']]).toEqual([405, 'GET, HEAD, POST']);
      expect(answer.text).not.toContain(session);
    },
  );
});

/** RFC 9112 §3.2: `Host` once; §3.2.2: an absolute address counts before it. RFC 9110 §4.2.3: names in any case. */
describe('names it is asked under', () => {
  let open: TestServer;
  beforeAll(async () => {
    open = await testServer();
  });
  afterAll(() => open.close());

  it.each([
    ['a foreign name pointed at this machine', { Host: 'evil.example' }],
    ['the same with our port', { Host: 'evil.example:4137' }],
    ['ours with more behind', { Host: '127.0.0.1.evil.example' }],
    ['ours as a name in front', { Host: '127.0.0.1@evil.example' }],
    ['another address of the loopback', { Host: '127.0.0.2' }],
  ])('%s: 421, with the key as without', async (_, headers) => {
    expect((await ask(open.url, { headers })).status).toBe(421);
    expect((await ask(server.url, { headers: { ...headers, Cookie: session } })).status).toBe(421);
    expect((await ask(server.url, { headers: { ...headers, Authorization: `Bearer ${ACCESS_KEY}` } })).status).toBe(
      421,
    );
  });
});
