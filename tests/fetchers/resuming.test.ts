/** Breaks, and what a source may answer to the wish for the rest; without a network. */
import { closeSync, openSync, readdirSync, readFileSync, writeSync } from 'node:fs';
import nock from 'nock';
import { describe, expect, it } from 'vitest';
import { startFetch } from '../../server/fetchers/index.ts';
import { codesOf, GFS_WIND, messagesOf, requestFor, stillWorld, valueOf, whole } from './fetch-fixture.ts';
import { body, fetchesOfOneFile, full, part, ROOT, URL_A } from './one-file.ts';

const { at, fetchA, written } = fetchesOfOneFile();

/** A fetch whose line breaks after so many octets, which stay. */
async function breakAfter(octets: number, headers: Record<string, string>): Promise<void> {
  const stream = new ReadableStream<Uint8Array>({
    start: (controller) => {
      controller.enqueue(GFS_WIND.slice(0, octets));
    },
    pull: (controller) => {
      controller.error(new Error('the line is gone'));
    },
  });
  const world = { ...stillWorld(), fetch: () => Promise.resolve(new Response(stream, { headers })) };
  const request = requestFor(at(), [whole(URL_A)], { tryCount: 1 });
  expect(codesOf(await startFetch(request, world).finished)).toEqual(['fetch.line-broken']);
  expect(keptFile().length).toBe(octets);
}

const keptPath = (): string => {
  const folder = requestFor(at(), []).keepFolder;
  const [name] = readdirSync(folder).filter((one) => one.endsWith('.part'));
  return `${folder}/${name}`;
};
const keptFile = (): Buffer => readFileSync(keptPath());
const keepFirst = (octets: number): Promise<void> => breakAfter(octets, full);

// RFC 9110 §13.1.5 (If-Range), §14.4 (Content-Range), §15.5.17 (416).
describe('going on after a break', () => {
  it('a page with status 200 while going on: what has come stays', async () => {
    await keepFirst(100_000);
    nock(ROOT).get('/a.grib2').reply(200, '<html>sign in</html>');
    expect(codesOf(await fetchA())).toEqual(['fetch.not-grib']);
    nock(ROOT)
      .get('/a.grib2')
      .matchHeader('range', /^bytes=100000-/)
      .reply(206, body.subarray(100_000), part(100_000));
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });

  it('asks for the rest under the tag it had, and joins it', async () => {
    await keepFirst(200_000);
    nock(ROOT)
      .get('/a.grib2')
      .matchHeader('range', `bytes=200000-${body.length - 1}`)
      .matchHeader('if-range', '"one"')
      .reply(206, body.subarray(200_000), part(200_000));
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });

  const other = Buffer.concat(messagesOf(GFS_WIND).toReversed());
  it.each([
    [
      'the whole of a changed file',
      { status: 200, octets: other, headers: { etag: '"two"', 'content-length': String(other.length) } },
    ],
    [
      'a part of a changed file, in spite of If-Range',
      { status: 206, octets: other.subarray(200_000), headers: part(200_000, '"two"') },
    ],
    [
      'a part of a file of another length',
      { status: 206, octets: body.subarray(200_000), headers: part(200_000, '"one"', body.length + 5) },
    ],
    ['another part than asked for', { status: 206, octets: body.subarray(199_999), headers: part(199_999) }],
    ['416: there is no such part', { status: 416, octets: '', headers: { 'content-range': 'bytes */10' } }],
  ])('%s: begun again, never mixed', async (_, { status, octets, headers }) => {
    await keepFirst(200_000);
    nock(ROOT).get('/a.grib2').reply(status, octets, headers);
    if (status !== 200)
      nock(ROOT, { badheaders: ['range'] })
        .get('/a.grib2')
        .reply(200, other, { etag: '"two"' });
    const world = stillWorld();
    valueOf(await fetchA(world));
    expect(written().equals(other)).toBe(true);
    // Known by what the answer says, not only by the checks at the end, which would not wait.
    expect(world.sleepsMs).toEqual(status === 200 ? [] : [750]);
    expect(nock.isDone()).toBe(true);
  });

  it.each([
    ['a weak tag', { etag: 'W/"one"' }],
    [
      'a date as young as the answer',
      { 'last-modified': 'Wed, 27 May 2026 00:00:00 GMT', date: 'Wed, 27 May 2026 00:00:30 GMT' },
    ],
    ['nothing that tells states apart', {}],
  ])('%s: no ground to go on, begun again', async (_, headers) => {
    await breakAfter(200_000, headers);
    nock(ROOT, { badheaders: ['range', 'if-range'] })
      .get('/a.grib2')
      .reply(200, body, headers);
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });

  it('what was kept is spoilt on disk: found by the checks, fetched once more in one go', async () => {
    await keepFirst(200_000);
    // The length of the first message's section 1: octets of values carry no check sum.
    spoil(keptPath(), 16);
    nock(ROOT).get('/a.grib2').reply(206, body.subarray(200_000), part(200_000));
    nock(ROOT, { badheaders: ['range'] })
      .get('/a.grib2')
      .reply(200, body, full);
    valueOf(await fetchA());
    expect(written().equals(body)).toBe(true);
  });
});

/** Overwrites eight octets. */
function spoil(path: string, atOctet: number): void {
  const file = openSync(path, 'r+');
  writeSync(file, Buffer.alloc(8, 0xff), 0, 8, atOctet);
  closeSync(file);
}
