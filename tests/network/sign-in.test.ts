/** The access key, walked by somebody who has it and somebody who has not. */
import { afterAll, afterEach, beforeAll, beforeEach, describe, expect, it } from 'vitest';
import { getRoutes, postRoutes } from '../browser/routes-of.ts';
import { fieldsOf } from '../pages/sent-forms.ts';
import { ACCESS_KEY, type Answer, ask, keyServer, type KeyServer, postForm, sessionIn } from './with-key.ts';

let server: KeyServer;
const begin = async (): Promise<void> => {
  server = await keyServer();
};
const end = (): Promise<void> => server.close();

const signIn = (to = '/', headers: Readonly<Record<string, string>> = {}): Promise<Answer> =>
  postForm(`${server.url}/key`, { key: ACCESS_KEY, to }, headers);
const sessionOf = async (): Promise<string> => sessionIn(await signIn());
const status = async (path: string, cookie = ''): Promise<number> =>
  (await ask(server.url + path, { headers: { Cookie: cookie } })).status;

/** Addresses like those of the routes, and others. */
const addresses = [...getRoutes(), ...postRoutes()].map((path) => path.replaceAll(/:\w+/g, '1'));
const FREE = ['/key', '/key/leave'];

describe('without the key', () => {
  beforeAll(begin);
  afterAll(end);

  it('every address there is, and any other: the same page, with nothing of the passage in it', async () => {
    const others = [
      '/nothing',
      '/jobs/stitch',
      '/jobs/none',
      '/static/htmx.min.js',
      '/static/jobs.css',
      '/%E0%A4%A',
      '/KEY',
    ];
    const pages = new Set<string>();
    for (const path of [...addresses, ...others].filter((one) => !FREE.includes(one))) {
      const { status: code, headers, text } = await ask(server.url + path, { headers: { Accept: 'text/html' } });
      expect([path, code, headers['www-authenticate'], headers['cache-control']]).toEqual([
        path,
        401,
        'Bearer',
        'no-store',
      ]);
      expect(headers['content-security-policy']).toMatch(/^default-src 'none'/);
      pages.add(text.replace(/name="to" value="[^"]*"/, ''));
    }
    expect(pages.size).toBe(1);
    expect([...pages][0]).toContain('<h1 class="what">Access key</h1>');
    expect([...pages][0]).not.toMatch(/Torn main|mainsail|invented|nav|htmx\.min|hour-reading/i);
  });

  it('every form there is: nothing of it done, the same page', async () => {
    const pages = new Set<string>();
    for (const path of addresses.filter((one) => ![...FREE, '/style'].includes(one))) {
      const { status: code, text } = await postForm(server.url + path, { version: '1.1', do: 'save' });
      expect([path, code]).toEqual([path, 401]);
      pages.add(text);
    }
    expect(pages.size).toBe(1);
    expect([...pages][0]).toContain('Nothing was saved');
    expect(server.pressed).toEqual([]);
  });

  it('refused for another reason: no page names and no passage either', async () => {
    const answers = [
      await ask(server.url, { headers: { Host: 'evil.example' } }),
      await ask(server.url, { method: 'DELETE' }),
      await postForm(`${server.url}/key`, { key: 'x'.repeat(5000) }),
    ];
    expect(answers.map(({ status: code }) => code)).toEqual([421, 405, 413]);
    for (const { text } of answers) expect(text).not.toMatch(/<nav|Torn main|Sign out/);
  });

  it('what the page is dressed with: there; the scripts are not', async () => {
    const free = ['/static/slatch.css', '/static/icon.svg', '/favicon.ico', '/fonts/b612-latin-400-normal.woff2'];
    expect(await Promise.all(free.map((path) => status(path)))).toEqual([200, 200, 200, 200]);
    expect(await status('/static/htmx.min.js')).toBe(401);
    expect(await status('/fonts/..%2fjobs')).toBe(401);
    expect(await status('/fonts/none.woff2')).toBe(401);
  });

  it('night display on the page of the key: chosen, and back', async () => {
    const { status: code, headers } = await postForm(`${server.url}/style`, { style: 'night' });
    expect([code, headers['location'], String(headers['set-cookie'])]).toEqual([
      303,
      '/',
      expect.stringContaining('slatch_style=night'),
    ]);
    const { text } = await ask(server.url, { headers: { Cookie: 'slatch_style=night' } });
    expect(text).toContain('<html lang="en" class="night">');
  });

  it('a part asked for by a page whose session is over: the key is asked for in its place, and leads back to the page', async () => {
    const { status: code, text } = await ask(`${server.url}/plan/making`, {
      headers: { 'HX-Request': 'true', 'HX-Request-Type': 'partial', Referer: `${server.url}/plan?x=1` },
    });
    expect([code, text.startsWith('<main'), fieldsOf(text)['to']]).toEqual([401, true, '/plan?x=1']);
  });
});

/** Cookie attributes: RFC 6265 §5.2, SameSite: draft-ietf-httpbis-rfc6265bis §5.5. Session ids: OWASP ASVS 5.0, V7.2. */
describe('with the key', () => {
  beforeAll(begin);
  afterAll(end);

  it('right: a session for this browser alone, and on to the page that was asked for', async () => {
    const { headers, status: code } = await signIn('/jobs?x=1');
    expect([code, headers['location'], headers['cache-control']]).toEqual([303, '/jobs?x=1', undefined]);
    expect(String(headers['set-cookie'])).toMatch(
      /^slatch_id=[\w-]{43}; Max-Age=604800; Path=\/; Expires=[^;]+; HttpOnly; SameSite=Strict$/,
    );
    const cookie = sessionIn(await signIn());
    const page = await ask(`${server.url}/jobs`, { headers: { Cookie: `a=b; ${cookie}; slatch_style=night` } });
    expect([page.status, page.text.includes('Sign out'), page.text.includes('<nav')]).toEqual([200, true, true]);
    expect(server.said).toEqual(Array(2).fill('Signed in: a browser at 127.0.0.1.'));
  });

  it('typed with capitals, spaces, without hyphens: right', async () => {
    const typed = ACCESS_KEY.toUpperCase().replaceAll('-', ' ');
    expect((await postForm(`${server.url}/key`, { key: ` ${typed} ` })).status).toBe(303);
  });

  it('the browser speaks HTTPS to something that stands before: the cookie is for HTTPS alone', async () => {
    const answer = await signIn('/', { Origin: 'https://boat.example', 'Sec-Fetch-Site': 'same-origin' });
    expect(String(answer.headers['set-cookie'])).toMatch(/; HttpOnly; Secure; SameSite=Strict$/);
  });

  it.each([
    '//evil.example',
    '/\\evil.example',
    '\\\\evil.example',
    'https://evil.example/',
    'evil.example',
    'javascript:alert(1)',
    '/\t/evil.example',
    '\n/jobs',
    '/jobs\r\nSet-Cookie: a=b',
    '',
  ])('to %j: on to the passage', async (to) => {
    const { headers } = await signIn(to);
    expect([headers['location'], headers['a']]).toEqual(['/', undefined]);
    const { text } = await ask(`${server.url}/key?to=${encodeURIComponent(to)}`);
    expect(fieldsOf(text)['to']).toBe('/');
  });

  it('wrong: the page again with the same words whatever was wrong, and no session', async () => {
    const said = new Set<string>();
    for (const key of ['', 'x', ACCESS_KEY.slice(0, -1), `${ACCESS_KEY}x`]) {
      const answer = await postForm(`${server.url}/key`, { key, to: '/jobs' });
      expect([answer.status, sessionIn(answer), fieldsOf(answer.text)['to']]).toEqual([401, '', '/jobs']);
      said.add(answer.text);
    }
    expect(said.size).toBe(1);
    expect([...said][0]).toContain('That is not the key.');
  });

  it('signed in again: a new session, the one before is over; signed out: over, and told so', async () => {
    const before = await sessionOf();
    const after = sessionIn(await signIn('/', { Cookie: before }));
    expect(after).not.toBe(before);
    expect([await status('/', before), await status('/', after)]).toEqual([401, 200]);
    const left = await postForm(`${server.url}/key/leave`, {}, { Cookie: after });
    expect([left.status, left.headers['location']]).toEqual([303, '/key']);
    expect(String(left.headers['set-cookie'])).toMatch(/^slatch_id=; Path=\/; Expires=Thu, 01 Jan 1970/);
    expect(await status('/', after)).toBe(401);
  });

  it('an id from outside never becomes a session; one put beside it does not hide it', async () => {
    const planted = `slatch_id=${'A'.repeat(43)}`;
    const own = sessionIn(await signIn('/', { Cookie: planted }));
    expect(await status('/', planted)).toBe(401);
    expect(await status('/', `${planted}; ${own}`)).toBe(200);
    expect(await status('/', own.toUpperCase())).toBe(401);
    expect(await status('/', `x${own}`)).toBe(401);
  });

  it('unused for a day: the key is asked for again', async () => {
    const session = await sessionOf();
    server.passMs(86_400_001);
    expect(await status('/', session)).toBe(401);
  });

  it('the page of the key, signed in: how to leave', async () => {
    const { status: code, text } = await ask(`${server.url}/key`, { headers: { Cookie: await sessionOf() } });
    expect([code, text.includes('action="/key/leave"'), text.includes('name="key"')]).toEqual([200, true, false]);
  });
});

/** RFC 6750 §2.1. */
describe('programs', () => {
  beforeEach(begin);
  afterEach(end);

  const asked = async (authorization: string): Promise<number> =>
    (await ask(`${server.url}/plan.txt`, { headers: { Authorization: authorization } })).status;

  it('the key as a bearer token: read and write, without a session', async () => {
    expect(await asked(`Bearer ${ACCESS_KEY}`)).toBe(200);
    expect(await asked(`bearer ${ACCESS_KEY}`)).toBe(200);
    const written = await ask(`${server.url}/plan/again`, {
      method: 'POST',
      headers: { Authorization: `Bearer ${ACCESS_KEY}` },
    });
    expect([written.status, sessionIn(written)]).toEqual([303, '']);
    expect(server.pressed).toEqual(['make']);
  });

  it('anything else: refused, and counted as a wrong key', async () => {
    expect(await asked('Bearer ')).toBe(401);
    expect(await asked(`Basic ${Buffer.from(`:${ACCESS_KEY}`).toString('base64')}`)).toBe(401);
    expect(server.said).toEqual([]);
    const answers: number[] = [];
    for (let n = 0; n < 6; n += 1) answers.push(await asked('Bearer wrong'));
    expect(answers).toEqual([401, 401, 401, 401, 401, 429]);
    expect(await asked(`Bearer ${ACCESS_KEY}`)).toBe(429);
  });
});

/** RFC 6585 §4: 429; RFC 9110 §10.2.3: Retry-After in seconds. */
describe('guessing', () => {
  beforeEach(begin);
  afterEach(end);

  it('forty at once: five are looked at, the others wait, and so does the right one', async () => {
    const guesses = await Promise.all(
      Array.from({ length: 40 }, (_, n) => postForm(`${server.url}/key`, { key: `guess ${n}`, to: '/jobs' })),
    );
    const codes = guesses.map(({ status: code }) => code);
    expect([codes.filter((code) => code === 401).length, codes.filter((code) => code === 429).length]).toEqual([5, 35]);
    const held = await signIn();
    expect([held.status, held.headers['retry-after'], sessionIn(held)]).toEqual([429, '10', '']);
    expect(held.text).toContain('Too many wrong keys came. The next one is looked at in 10 s.');
    expect(held.text).toContain('name="key"');
    server.passMs(10_000);
    expect((await signIn()).status).toBe(303);
    expect(server.said).toEqual([
      ...[1, 2, 3, 4, 5].map((n) => `Wrong access key from 127.0.0.1: ${n} in a row.`),
      'Signed in: a browser at 127.0.0.1.',
    ]);
  });

  it('another address claimed in a header: counts for nothing', async () => {
    const answers: number[] = [];
    for (let n = 0; n < 7; n += 1) {
      const forged = {
        'X-Forwarded-For': `198.51.100.${n}`,
        Forwarded: `for=198.51.100.${n}`,
        'X-Real-IP': '198.51.100.9',
      };
      answers.push((await postForm(`${server.url}/key`, { key: 'wrong' }, forged)).status);
    }
    expect(answers).toEqual([401, 401, 401, 401, 401, 429, 429]);
  });

  it('whoever is in already is not held up by it', async () => {
    const session = await sessionOf();
    for (let n = 0; n < 8; n += 1) await postForm(`${server.url}/key`, { key: 'wrong' });
    expect(await status('/jobs', session)).toBe(200);
  });
});
