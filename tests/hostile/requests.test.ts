/**
 * Requests that lie, some with a fixed seed: every one is answered with a page of ours or dropped, none with a status of 500,
 * and the store checks out. `npm run mutate-text -- --format http` sends a hundred thousand. What counts as a fault is ours;
 * the frames are those of RFC 9112.
 */
import { dirname } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exchange } from '../../scripts/mutate-text/http/exchange.ts';
import { answerFault } from '../../scripts/mutate-text/http/judge-answer.ts';
import { storeFault } from '../../scripts/mutate-text/http/pages-process.ts';
import { type Asked, readPool } from '../../scripts/mutate-text/http/pool.ts';
import { requestOf } from '../../scripts/mutate-text/http/requests.ts';
import { longOrShort } from '../long-run.ts';
import { type TestServer, testServer } from '../pages/test-server.ts';

const SEED = 6;
const COUNT = longOrShort(4000, 120);

let server: TestServer;
let asked: readonly Asked[];
let port = 0;
beforeAll(async () => {
  server = await testServer();
  port = Number(new URL(server.url).port);
  asked = await readPool(port);
});
afterAll(() => server.close());

describe('requests that lie', () => {
  it('forms and pages are found to begin with', () => {
    expect(asked.filter(({ method }) => method === 'POST').length).toBeGreaterThan(50);
    expect(asked.filter(({ kind }) => kind === 'upload').length).toBeGreaterThan(1);
  });

  it(`${COUNT} of them: answered, and the store is whole`, async () => {
    const version = asked.flatMap(({ fields }) => fields).find(([name]) => name === 'version')?.[1] ?? '';
    const statuses = new Set<string>();
    const faults: string[] = [];
    for (let index = 0; index < COUNT; index++) {
      const request = requestOf({ asked, host: server.host, version }, { seed: SEED, index });
      // One after the other: what one saves the next meets.
      // oxlint-disable-next-line no-await-in-loop
      const fault = answerFault(request, await exchange(port, request), statuses);
      if (fault !== null) faults.push(`${index}, ${request.story}: ${fault}`);
    }
    expect(faults).toEqual([]);
    expect(server.reported).toEqual([]);
    expect([...statuses]).toEqual(expect.arrayContaining(['200', '303', '400', '404', '422']));
    expect(await storeFault(dirname(server.kept.file))).toBeNull();
  });
});
