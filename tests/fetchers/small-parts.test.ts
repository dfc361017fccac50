import { describe, expect, it } from 'vitest';
import { contentLength, readContentRange } from '../../server/fetchers/engine/content-range.ts';
import { makeMeter } from '../../server/fetchers/engine/meter.ts';
import { tokenBucket } from '../../server/fetchers/engine/pace.ts';
import { placeAfter, promisedOctets, withLastEnd } from '../../server/fetchers/engine/range-place.ts';
import { retryAfterMs, waitBeforeTry } from '../../server/fetchers/engine/retry.ts';
import { isSameState, validatorsOf } from '../../server/fetchers/engine/validators.ts';
import { stillWorld } from './fetch-fixture.ts';
import { seededRandom } from './seeded-random.ts';

describe('readContentRange', () => {
  // RFC 9110 §14.4: its examples, the complete length 1234 among them, and its rule on invalid ones.
  it.each([
    ['bytes 42-1233/1234', { startOctet: 42, endOctet: 1234, wholeOctets: 1234 }],
    ['bytes 42-1233/*', { startOctet: 42, endOctet: 1234, wholeOctets: null }],
    ['bytes */1234', { startOctet: null, endOctet: null, wholeOctets: 1234 }],
    ['bytes 500-999/1234', { startOctet: 500, endOctet: 1000, wholeOctets: 1234 }],
    ['bytes 1233-42/1234', null],
    ['bytes 42-1234/1234', null],
    ['seconds 1-2/3', null],
    ['', null],
    [null, null],
  ])('%j: %j', (header, expected) => {
    expect(readContentRange(header)).toEqual(expected);
  });
});

describe('contentLength', () => {
  it('of octets packed for the way: not that of the file', () => {
    expect(contentLength(new Headers({ 'content-length': '10' }))).toBe(10);
    expect(contentLength(new Headers({ 'content-length': '10', 'content-encoding': 'gzip' }))).toBeNull();
    expect(contentLength(new Headers())).toBeNull();
  });
});

describe('retryAfterMs', () => {
  // RFC 9110 §10.2.3: its two examples.
  it.each([
    ['120', Date.UTC(2026, 0, 1), 120_000],
    ['Fri, 31 Dec 1999 23:59:59 GMT', Date.UTC(1999, 11, 31, 23, 59, 29), 30_000],
    ['Fri, 31 Dec 1999 23:59:59 GMT', Date.UTC(2026, 0, 1), 0],
    ['-5', 0, null],
    ['in a while', 0, null],
    [null, 0, null],
  ])('%j: %d, %j ms', (header, now, expected) => {
    expect(retryAfterMs(header, now)).toBe(expected);
  });
});

describe('waitBeforeTry', () => {
  it('doubles from a second to a minute, spread over the upper half, never before what is asked', () => {
    expect([1, 2, 3, 6, 7, 50].map((count) => waitBeforeTry(count, 0, null))).toEqual([
      500, 1000, 2000, 16_000, 30_000, 30_000,
    ]);
    expect(waitBeforeTry(3, 0.999999, null)).toBe(4000);
    expect(waitBeforeTry(1, 0, 20_000)).toBe(20_000);
  });
});

describe('validators', () => {
  const of = (headers: Record<string, string>, whole: number | null = null) =>
    validatorsOf(new Headers(headers), whole);
  const modified = 'Wed, 27 May 2026 00:00:00 GMT';

  // RFC 9110 §8.8.1 and §13.1.5.
  it.each([
    [{ etag: '"a"' }, '"a"'],
    [{ etag: 'W/"a"', 'last-modified': modified, date: 'Thu, 28 May 2026 00:00:00 GMT' }, null],
    [{ 'last-modified': modified, date: 'Wed, 27 May 2026 00:01:00 GMT' }, modified],
    [{ 'last-modified': modified, date: 'Wed, 27 May 2026 00:00:59 GMT' }, null],
    [{ 'last-modified': modified }, null],
    [{}, null],
  ])('%j: strong is %j', (headers, strong) => {
    expect(of(headers).strong).toBe(strong);
  });

  it('differ in what both say: another state; silence is no difference', () => {
    expect(isSameState(of({ etag: '"a"' }), of({ etag: '"b"' }))).toBe(false);
    expect(isSameState(of({}, 10), of({}, 11))).toBe(false);
    expect(isSameState(of({ etag: '"a"' }), of({}, 11))).toBe(true);
  });
});

describe('placeAfter', () => {
  const ranges = [
    { startOctet: 10, endOctet: 20 },
    { startOctet: 50, endOctet: 55 },
    { startOctet: 90, endOctet: null },
  ];

  it.each([
    [0, { beforeOctets: 0, startOctet: 10, fromOctet: 10, endOctet: 20 }],
    [9, { beforeOctets: 0, startOctet: 10, fromOctet: 19, endOctet: 20 }],
    [10, { beforeOctets: 10, startOctet: 50, fromOctet: 50, endOctet: 55 }],
    [15, { beforeOctets: 15, startOctet: 90, fromOctet: 90, endOctet: null }],
    [40, { beforeOctets: 15, startOctet: 90, fromOctet: 115, endOctet: null }],
  ])('after %d octets: %j', (got, expected) => {
    expect(placeAfter(ranges, got)).toEqual(expected);
  });

  it('the last end becomes known: the sum is, and there is an end', () => {
    expect(promisedOctets(ranges)).toBeNull();
    const known = withLastEnd(ranges, 100);
    expect([promisedOctets(known), placeAfter(known, 25)]).toEqual([25, null]);
  });
});

describe('tokenBucket', () => {
  it('drawn pieces: never more than the rate times the time, a second saved up and one piece', async () => {
    const world = stillWorld();
    const random = seededRandom(2);
    const capOctetsPerS = 5000;
    const pace = tokenBucket(capOctetsPerS, world);
    const signal = new AbortController().signal;
    const startEpochMs = world.nowEpochMs();
    let sumOctets = 0;
    for (let count = 0; count < 500; count++) {
      const piece = Math.floor(random() * 8000);
      sumOctets += piece;
      await pace.spend(piece, signal);
      const passedS = (world.nowEpochMs() - startEpochMs) / 1000;
      expect(sumOctets).toBeLessThanOrEqual(capOctetsPerS * (passedS + 1) + 1);
    }
    const passedS = (world.nowEpochMs() - startEpochMs) / 1000;
    expect(sumOctets / passedS).toBeGreaterThan(0.99 * capOctetsPerS);
  });

  it('without a cap: never waits', async () => {
    const world = stillWorld();
    await tokenBucket(null, world).spend(1e9, new AbortController().signal);
    expect(world.sleepsMs).toEqual([]);
  });
});

describe('makeMeter', () => {
  it('rate of the last 20 s, time left at that rate, a guess where nothing better is known', async () => {
    const world = stillWorld();
    const meter = makeMeter([50_000, 50_000], world);
    const signal = new AbortController().signal;
    for (let second = 1; second <= 60; second++) {
      await world.sleep(1000, signal);
      const octets = second <= 30 ? 100 : 1000;
      meter.came(octets);
      meter.setFile(1, { gotOctets: second * 100, allOctets: 50_000 });
    }
    const { octetsPerS, leftS, allOctets, isAllEstimated, gotOctets } = meter.progress();
    expect([gotOctets, allOctets, isAllEstimated]).toEqual([6000, 100_000, true]);
    expect(octetsPerS).toBeCloseTo(1000, 0);
    expect(leftS).toBeCloseTo(94, 0);
  });
});
