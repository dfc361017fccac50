/** RFC 9110 §9.2.1: GET and HEAD ask for nothing but an answer. Every route, with something behind each. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { FILES_AND_PARTS, PAGES } from '../../scripts/screenshots/pages.ts';
import { filledServer } from '../browser/filled-server.ts';
import { getRoutes } from '../browser/routes-of.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { FORM_PAGES } from '../../server/routes/form-addresses.ts';
import type { TestServer } from '../pages/test-server.ts';
import { storeHash, tablesOf } from './store-hash.ts';
import { ask } from './with-key.ts';

let server: TestServer;
beforeAll(async () => {
  server = await filledServer();
});
afterAll(() => server.close());

const FILLED: Readonly<Record<string, string>> = {
  '/plans/:file': '/plans/1.json',
  '/jobs/:id/sheet.txt': '/jobs/drop/sheet.txt',
};

const withIds = (path: string): string =>
  FILLED[path] ?? path.replaceAll(/:(?:index|sail|tear|number)/g, '0').replaceAll(/:\w+/g, 'stitch');

/** Ways of asking; HEAD is answered by what answers GET, a part by what answers the page. */
const WAYS = ['GET', 'HEAD'].flatMap((method) => [
  { method },
  { method, headers: { 'HX-Request': 'true', 'HX-Request-Type': 'partial' } },
]);
const ASKED = IS_LONG_RUN ? WAYS : WAYS.slice(0, 1);

describe('asking', () => {
  it('every route: the store is to the letter as it was', async () => {
    const { folder } = server.kept.store;
    const paths = [
      ...PAGES.map(({ path }) => path),
      ...FILES_AND_PARTS.map(withIds),
      ...Object.keys(FORM_PAGES).map(withIds),
      // What reads like asking for something to be done.
      '/?saved=1.2&back=1&shown=1',
      '/log/new/job?job=stitch&event=started',
      '/trial?job=stitch&start=2026-05-28T10:30Z',
      '/style?style=night',
      '/key/leave',
      '/plan/again',
      '/plan/stop',
    ];
    const before = { hash: storeHash(folder), tables: tablesOf(folder), pressed: [...server.pressed] };
    const found = new Map<number, number>();
    for (const path of paths)
      for (const asked of ASKED) {
        const { status } = await ask(server.url + path, asked);
        found.set(status, (found.get(status) ?? 0) + 1);
      }
    expect(tablesOf(folder)).toEqual(before.tables);
    expect(storeHash(folder)).toBe(before.hash);
    expect(server.pressed).toEqual(before.pressed);
    // It was walked, not refused.
    expect(found.get(200)).toBeGreaterThan(ASKED.length * PAGES.length - 1);
    expect([...found.keys()].filter((status) => status >= 500)).toEqual([]);
    const walked = new Set([...PAGES.map(({ route }) => route), ...FILES_AND_PARTS]);
    expect(getRoutes().filter((route) => !walked.has(route))).toEqual([]);
  });

  it('the hash: of all tables there are, and other after a change', async () => {
    const { folder } = server.kept.store;
    expect(tablesOf(folder).length).toBeGreaterThan(5);
    const before = storeHash(folder);
    await server.kept.log.writeLog({
      passageNumber: 1,
      entry: { kind: 'observation', atUtc: '2026-05-27T16:00Z', pressureHpa: 1000 },
      atEpochMs: 0,
      formToken: 'changed',
    });
    expect(storeHash(folder)).not.toBe(before);
  });
});
