import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { textOf } from './sent-forms.ts';
import { testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const get = (headers: Readonly<Record<string, string>> = {}): Promise<Response> =>
  fetch(`${server.url}/display`, { headers: { ...headers } });

const send = (fields: Readonly<Record<string, string>>): Promise<Response> =>
  fetch(`${server.url}/display`, { method: 'POST', body: new URLSearchParams({ ...fields }), redirect: 'manual' });

const ALL = { style: 'night', wind: 'mps', height: 'ft', temperature: 'f', back: '/plan?x=1' };

const chosenIn = (html: string): string[] =>
  [...html.matchAll(/<input type="radio" name="(\w+)" value="(\w+)" checked/g)].map(
    ([, name, value]) => `${name} ${value}`,
  );

describe('display page', () => {
  it('without a cookie: day, kn, m and °C are chosen; every choice has a label with the same amount in it', async () => {
    const html = await (await get()).text();
    expect(chosenIn(html)).toEqual(['style day', 'wind kn', 'height m', 'temperature c']);
    for (const text of ['18 kn', '9.2 m/s', 'Bft 5, 18 kn', '2 m', '6.5 ft', '8 °C', '46.4 °F'])
      expect(html).toContain(text);
    expect([...html.matchAll(/<label><input type="radio"/g)]).toHaveLength(9);
    expect(textOf(html)).toContain('Forms, files, messages, deck sheets and the plan itself stay in kn, m and °C.');
  });

  it('with a cookie: its choices are chosen', async () => {
    const html = await (await get({ Cookie: 'slatch_units=bft.ft.f; slatch_style=night' })).text();
    expect(chosenIn(html)).toEqual(['style night', 'wind bft', 'height ft', 'temperature f']);
  });

  it.each(['slatch_units=knots.m.c', 'slatch_units=kn.m', 'slatch_units=__proto__.m.c', 'xslatch_units=bft.ft.f'])(
    'a cookie that says nothing (%s): kn, m and °C',
    async (Cookie) => {
      expect(chosenIn(await (await get({ Cookie })).text())).toContain('wind kn');
    },
  );

  it('saved: two cookies no script can read, and back to the page one came from', async () => {
    const answer = await send(ALL);
    expect([answer.status, answer.headers.get('Location')]).toEqual([303, '/plan?x=1']);
    const cookies = answer.headers.getSetCookie();
    expect(cookies).toHaveLength(2);
    expect(cookies.map((cookie) => cookie.split(';')[0])).toEqual(['slatch_style=night', 'slatch_units=mps.ft.f']);
    for (const cookie of cookies)
      for (const kept of ['HttpOnly', 'SameSite=Strict', 'Path=/']) expect(cookie).toContain(kept);
  });

  it.each([
    ['another unit', { wind: 'mph' }],
    ['no unit', { height: '' }],
    ['a name every object has', { temperature: 'constructor' }],
    ['another style', { style: 'dusk' }],
  ])('%s: 400, said in words, no cookie', async (_, wrong) => {
    const answer = await send({ ...ALL, ...wrong });
    expect(answer.status).toBe(400);
    expect(answer.headers.getSetCookie()).toEqual([]);
    expect(textOf(await answer.text())).toContain('Choose one of each on the page Display.');
  });

  it.each(['https://evil.example/', '//evil.example', '/\\evil.example', '', 'plan', '/a\r\nSet-Cookie: a=b'])(
    'back to “%s”: to the passage',
    async (back) => {
      expect((await send({ ...ALL, back })).headers.get('Location')).toBe('/');
    },
  );

  it('the form remembers the page before it, and never itself or another server', async () => {
    const backOf = async (Referer: string): Promise<string> =>
      /name="back" value="([^"]*)"/.exec(await (await get({ Referer })).text())?.[1] ?? '';
    expect(await backOf(`${server.url}/windows?job=drop&part=1`)).toBe('/windows?job=drop&amp;part=1');
    expect(await backOf(`${server.url}/display`)).toBe('/');
    expect(await backOf('http://evil.example/plan')).toBe('/');
  });
});
