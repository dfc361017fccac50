/** What sources may answer, one by one; without a network. */
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { gzipSync } from 'node:zlib';
import nock from 'nock';
import { describe, expect, it } from 'vitest';
import { estimateFetch, type FetchTarget, startFetch } from '../../server/fetchers/index.ts';
import { openStore } from '../../server/stores/index.ts';
import {
  codesOf,
  GFS_CYCLE_EPOCH_MS,
  GFS_WIND,
  messagesOf,
  requestFor,
  stillWorld,
  valueOf,
  whole,
} from './fetch-fixture.ts';
import { body, fetchesOfOneFile, full, part, ROOT, TAG, URL_A } from './one-file.ts';

const { at, fetchA, written } = fetchesOfOneFile();

describe('answers that may be different next time', () => {
  // RFC 9110 §10.2.3: seconds, or a date.
  it.each([
    [429, '7', 7000],
    [503, 'Wed, 27 May 2026 00:00:30 GMT', 30_000],
    [503, 'soon', 750],
    [500, null, 750],
    [408, null, 750],
    [304, null, 750],
  ])('status %d, Retry-After %j: tried again after %d ms', async (status, retryAfter, waitMs) => {
    nock(ROOT)
      .get('/a.grib2')
      .reply(status, undefined, retryAfter === null ? {} : { 'retry-after': retryAfter })
      .get('/a.grib2')
      .reply(200, body, full);
    const world = stillWorld();
    valueOf(await fetchA(world));
    expect(world.sleepsMs).toEqual([waitMs]);
    expect(written().equals(body)).toBe(true);
  });

  it('asked to wait an hour: told, not waited for', async () => {
    nock(ROOT).get('/a.grib2').reply(503, '', { 'retry-after': '3600' });
    const world = stillWorld();
    const result = await fetchA(world);
    expect(codesOf(result)).toEqual(['fetch.asked-to-wait']);
    expect(world.sleepsMs).toEqual([]);
    expect(result.ok ? '' : result.problems[0].what).toContain('60 min');
  });

  it('never better: given up after the tries stated, each wait twice the one before', async () => {
    nock(ROOT).get('/a.grib2').times(4).replyWithError('reset');
    const world = stillWorld();
    const result = await fetchA(world, { tryCount: 4 });
    expect(codesOf(result)).toEqual(['fetch.line-broken']);
    expect(world.sleepsMs).toEqual([750, 1500, 3000]);
    expect(nock.isDone()).toBe(true);
  });

  it('no answer within the time: tried again, then told', async () => {
    nock(ROOT).get('/a.grib2').times(2).delay(5000).reply(200, body, full);
    const result = await fetchA(stillWorld(), { tryCount: 2, connectMs: 60 });
    expect(codesOf(result)).toEqual(['fetch.no-answer']);
    nock.abortPendingRequests();
  });
});

describe('answers that will not change', () => {
  it.each([
    [404, 'fetch.not-there'],
    [403, 'fetch.not-there'],
    [410, 'fetch.not-there'],
    [401, 'fetch.status'],
    [400, 'fetch.status'],
    [204, 'fetch.status'],
  ])('status %d: %s, after one try', async (status, code) => {
    nock(ROOT).get('/a.grib2').reply(status);
    const world = stillWorld();
    expect(codesOf(await fetchA(world))).toEqual([code]);
    expect(world.sleepsMs).toEqual([]);
    expect(existsSync(at().outPath)).toBe(false);
  });

  it('a page with status 200 instead of GRIB: told with its first words, nothing is kept', async () => {
    nock(ROOT).get('/a.grib2').reply(200, '<html><title>Harbour network: sign in</title></html>', {
      'content-type': 'text/html',
    });
    const result = await fetchA();
    expect(codesOf(result)).toEqual(['fetch.not-grib']);
    expect(result.ok ? '' : result.problems[0].what).toMatch(/text\/html.*Harbour network/);
    expect(existsSync(at().outPath)).toBe(false);
  });

  it('larger than allowed by its own words: not begun', async () => {
    nock(ROOT).get('/a.grib2').reply(200, body, full);
    expect(codesOf(await fetchA(stillWorld(), { mostOctets: 1000 }))).toEqual(['fetch.too-large']);
  });

  it('larger than allowed, without a length: stopped on the way', async () => {
    nock(ROOT).get('/a.grib2').reply(200, body);
    expect(codesOf(await fetchA(stillWorld(), { mostOctets: 1000 }))).toEqual(['fetch.too-large']);
  });
});

describe('redirects', () => {
  it('to another path and another host: followed', async () => {
    nock(ROOT).get('/a.grib2').reply(302, '', { location: '/b' });
    nock(ROOT).get('/b').reply(307, '', { location: 'https://other.example.org/c' });
    nock('https://other.example.org').get('/c').reply(200, body, full);
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });

  it.each([
    ['down to HTTP', 'http://data.example.org/b'],
    ['to a file', 'file:///etc/passwd'],
    ['to nothing', undefined],
  ])('%s: refused', async (_, location) => {
    nock(ROOT)
      .get('/a.grib2')
      .reply(301, '', location === undefined ? {} : { location });
    expect(codesOf(await fetchA())).toEqual(['fetch.redirect']);
  });

  it('in a ring: refused after five', async () => {
    nock(ROOT).get('/a.grib2').times(6).reply(302, '', { location: '/a.grib2' });
    expect(codesOf(await fetchA())).toEqual(['fetch.redirect']);
    expect(nock.isDone()).toBe(true);
  });
});

describe('checks before accepting', () => {
  const spoilt = Buffer.from(body);
  spoilt.fill(0xff, 16, 40);
  it.each([
    ['cut, and the length says so too', body.subarray(0, body.length - 100), 'fetch.not-whole'],
    ['with spoilt octets inside', spoilt, /^grib\./],
    ['without a message', Buffer.from('GRIB7777'), /^(grib|fetch)\./],
    ['of quantities Slatch does not read', humidityAloft(), 'fetch.nothing-useful'],
  ])('a file %s: refused, and nothing is written or kept', async (_, octets, code) => {
    nock(ROOT)
      .get('/a.grib2')
      .reply(200, octets, { 'content-length': String(octets.length) });
    const codes = codesOf(await fetchA());
    expect(codes[0]).toMatch(code);
    expect(readdirSync(at().folder)).toEqual([]);
  });

  it('of another run than asked for: refused', async () => {
    const target = { ...whole(URL_A), cycleEpochMs: GFS_CYCLE_EPOCH_MS + 21_600_000 };
    nock(ROOT).get('/a.grib2').reply(200, body, full);
    expect(codesOf(await startFetch(requestFor(at(), [target]), stillWorld()).finished)).toEqual(['fetch.other-cycle']);
  });

  it('without a quantity that was named: refused', async () => {
    nock(ROOT).get('/a.grib2').reply(200, body, full);
    const request = { ...requestFor(at(), [whole(URL_A)]), mustHold: ['wind' as const, 'gust' as const] };
    const result = await startFetch(request, stillWorld()).finished;
    expect(codesOf(result)).toEqual(['fetch.quantity-missing']);
    expect(result.ok ? '' : result.problems[0].what).toBe('What came holds no gust.');
  });

  it.each([
    ['gzip on the way', { 'content-encoding': 'gzip' }],
    ['a gzip file', { 'content-type': 'application/gzip' }],
  ])('%s: unpacked', async (_, headers) => {
    nock(ROOT).get('/a.grib2').reply(200, gzipSync(body), headers);
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });

  it('a bzip2 file (made by bzip2 1.0.8): unpacked', async () => {
    const golden = (name: string) => readFileSync(new URL(`../golden/${name}`, import.meta.url));
    nock(ROOT).get('/a.grib2').reply(200, golden('fetchers/message.grib2.bz2'));
    valueOf(await fetchA());
    expect(written().equals(golden('grib/files/bits07_simple.grib2'))).toBe(true);
  });
});

describe('files with an index', () => {
  const target = (keys: readonly string[]): FetchTarget => ({
    ...whole(URL_A),
    index: {
      url: `${URL_A}.idx`,
      kind: 'lines',
      wanted: keys.map((parameter) => ({ quantity: 'wind', keys: { parameter } })),
      members: null,
    },
  });
  const messages = messagesOf(GFS_WIND);
  const starts = messages.map((_, index) => Buffer.concat(messages.slice(0, index)).length);
  const index = starts.map((start, number) => `${number + 1}:${start}:d=2016112000:P${number}:10 m:x:`).join('\n');
  const fetchTarget = (one: FetchTarget) => startFetch(requestFor(at(), [one]), stillWorld()).finished;

  it('the last message: asked for to the end of the file', async () => {
    const last = messages.length - 1;
    const start = starts[last] ?? 0;
    nock(ROOT).get('/a.grib2.idx').reply(200, index);
    nock(ROOT).get('/a.grib2').matchHeader('range', `bytes=${start}-`).reply(206, body.subarray(start), part(start));
    valueOf(await fetchTarget(target([`P${last}`])));
    expect(written().equals(Buffer.from(messages[last] ?? []))).toBe(true);
  });

  it('a source that sends no parts: told, not fetched whole', async () => {
    nock(ROOT).get('/a.grib2.idx').reply(200, index);
    nock(ROOT).get('/a.grib2').reply(200, body, full);
    expect(codesOf(await fetchTarget(target(['P0'])))).toEqual(['fetch.no-ranges']);
  });

  it('an index of an older state of the file: what comes is no message, refused', async () => {
    nock(ROOT)
      .get('/a.grib2.idx')
      .reply(200, index.replace(`:${starts[1]}:`, `:${(starts[1] ?? 0) + 3}:`));
    const wrong = (starts[1] ?? 0) + 3;
    nock(ROOT)
      .get('/a.grib2')
      .reply(206, body.subarray(wrong, starts[2]), {
        ...TAG,
        'content-range': `bytes ${wrong}-${(starts[2] ?? body.length) - 1}/${body.length}`,
      });
    expect(codesOf(await fetchTarget(target(['P1'])))).toEqual(['fetch.not-grib']);
  });

  it('not one message wanted is listed: refused', async () => {
    nock(ROOT).get('/a.grib2.idx').reply(200, index);
    expect(codesOf(await fetchTarget(target(['CAPE'])))).toEqual(['fetch.nothing-useful']);
  });

  it('what it will cost: the sum of the parts, the last one by the length of the file', async () => {
    const last = messages.length - 1;
    nock(ROOT).get('/a.grib2.idx').reply(200, index);
    nock(ROOT).head('/a.grib2').reply(200, '', full);
    const { limits } = requestFor(at(), []);
    const targets = [target(['P0', `P${last}`])];
    const estimate = valueOf(await estimateFetch({ targets, limits, signal: new AbortController().signal }));
    const allOctets = (messages[0]?.length ?? 0) + (messages[last]?.length ?? 0);
    expect(estimate).toEqual({ fileCount: 1, askedCount: 1, allOctets, isGuess: false });
  });

  it('a source that does not answer HEAD: asked for one octet instead', async () => {
    nock(ROOT).head('/a.grib2').reply(405);
    nock(ROOT)
      .get('/a.grib2')
      .matchHeader('range', 'bytes=0-0')
      .reply(206, 'G', { 'content-range': 'bytes 0-0/12345' });
    const { limits } = requestFor(at(), []);
    const asked = { targets: [whole(URL_A)], limits, signal: new AbortController().signal };
    expect(valueOf(await estimateFetch(asked)).allOctets).toBe(12_345);
  });
});

describe('into the store', () => {
  it('the same content twice: one entry, and told', async () => {
    const store = valueOf(openStore(at().folder));
    const request = {
      ...requestFor(at(), [whole(URL_A)]),
      destination: { kind: 'store' as const, forecasts: store.forecasts },
    };
    const seen: boolean[] = [];
    for (let count = 0; count < 2; count++) {
      nock(ROOT).get('/a.grib2').reply(200, body, full);
      seen.push(valueOf(await startFetch(request, stillWorld()).finished).isNew);
    }
    expect(seen).toEqual([true, false]);
    expect(valueOf(store.forecasts.list()).length).toBe(1);
    store.close();
  });

  it('refused content: no entry', async () => {
    const store = valueOf(openStore(at().folder));
    nock(ROOT).get('/a.grib2').reply(200, body.subarray(0, 1000), { 'content-length': '1000' });
    const request = {
      ...requestFor(at(), [whole(URL_A)]),
      destination: { kind: 'store' as const, forecasts: store.forecasts },
    };
    expect(codesOf(await startFetch(request, stillWorld()).finished)).toEqual(['fetch.not-whole']);
    expect(valueOf(store.forecasts.list())).toEqual([]);
    store.close();
  });
});

/** A message of something else: the parameter of the first message (section 4, octets 10 and 11) made moisture aloft. */
function humidityAloft(): Buffer {
  const message = Buffer.from(messagesOf(GFS_WIND)[0] ?? []);
  let start = 16;
  while (message[start + 4] !== 4) start += message.readUInt32BE(start);
  message[start + 9] = 1;
  message[start + 10] = 22;
  return message;
}
