/** One file at one address of a source, without a network. */
import { readFileSync } from 'node:fs';
import nock from 'nock';
import { afterAll, afterEach, beforeAll, beforeEach } from 'vitest';
import { startFetch } from '../../server/fetchers/index.ts';
import { type Fixture, fixture, GFS_WIND, requestFor, stillWorld, whole } from './fetch-fixture.ts';

export const ROOT = 'https://data.example.org';
export const URL_A = `${ROOT}/a.grib2`;
export const body = Buffer.from(GFS_WIND);
export const TAG = { etag: '"one"' };
export const full = { ...TAG, 'content-length': String(body.length) };
/** Headers of the part from an octet to the end. */
export const part = (from: number, tag = '"one"', of = body.length) => ({
  etag: tag,
  'content-range': `bytes ${from}-${of - 1}/${of}`,
});

/** For the tests of a file: each has a folder of its own, and none reaches the network. */
export function fetchesOfOneFile() {
  let now: Fixture | null = null;
  const at = (): Fixture => {
    if (now === null) throw new Error('asked for outside of a test');
    return now;
  };
  beforeAll(() => {
    nock.disableNetConnect();
  });
  beforeEach(() => {
    now = fixture();
  });
  afterEach(() => {
    nock.cleanAll();
    at().remove();
  });
  afterAll(() => {
    // Files that run after this one in the same process have the network as it is.
    nock.enableNetConnect();
  });
  return {
    at,
    fetchA: (world = stillWorld(), limits = {}) => startFetch(requestFor(at(), [whole(URL_A)], limits), world).finished,
    written: (): Buffer => readFileSync(at().outPath),
  };
}
