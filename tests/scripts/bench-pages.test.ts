import { createServer, type Server } from 'node:http';
import type { AddressInfo } from 'node:net';
import { gzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { findPages, shapeOf } from '../../scripts/bench-pages/find-pages.ts';
import { measurePages } from '../../scripts/bench-pages/measure.ts';

const names = new Set(['drop', 'stitch', 'hoist', 'whipping twine']);

const links: Readonly<Record<string, string>> = {
  '/': '<a href="/jobs/drop">1</a><a href="/jobs/stitch#end">2</a><a href="/jobs/hoist">3</a><a href="?job=drop&amp;start=9">4</a>',
  '/jobs/drop': '<link href="/s.css"/><a href="https://elsewhere.example/">out</a><img src="/a.svg"/>',
  '/jobs/stitch': '<p hx-get="/part?n=1"></p>',
};
let server: Server;
let base = '';
const asked: string[] = [];

beforeAll(async () => {
  server = createServer((request, response) => {
    const path = request.url ?? '';
    asked.push(path);
    const isCss = path.startsWith('/s.css');
    response.writeHead(path === '/no-such-page' ? 404 : 200, {
      'Content-Type': isCss ? 'text/css' : 'text/html',
      'Content-Encoding': 'gzip',
    });
    response.end(gzipSync(isCss ? 'a { src: url(/fonts/a.woff2) }' : (links[path] ?? '<p>nothing</p>'.repeat(50))));
  });
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`;
});
afterAll(() => {
  server.close().closeAllConnections();
});

describe('shapeOf', () => {
  it.each([
    ['/jobs/stitch/edit?step=2', '/jobs/*/edit?step'],
    ['/jobs/hoist/edit?step=3', '/jobs/*/edit?step'],
    ['/plans?to=2&from=1', '/plans?from&to'],
    ['/locker/items/12', '/locker/items/*'],
    ['/locker/whipping%20twine', '/locker/*'],
    ['/plan', '/plan'],
  ])('%s: %s', (path, shape) => {
    expect(shapeOf(path, names)).toBe(shape);
  });
});

describe('findPages', () => {
  it('follows links of pages and style sheets on this server, two of a kind, each once', async () => {
    asked.length = 0;
    const paths = (await findPages(base, names)).map(({ path }) => path);
    expect(paths).toEqual(expect.arrayContaining(['/?job=drop&start=9', '/s.css', '/fonts/a.woff2', '/a.svg']));
    expect(paths).toEqual(expect.arrayContaining(['/part?n=1', '/no-such-page']));
    expect(paths.filter((path) => path.startsWith('/jobs/'))).toEqual(['/jobs/drop', '/jobs/stitch']);
    expect(new Set(asked).size).toBe(asked.length);
  });

  it('shapes that are known: not told again', async () => {
    const paths = (await findPages(base, names, new Set(['/jobs/*', '/']))).map(({ path }) => path);
    expect(paths).toContain('/s.css');
    expect(paths).not.toContain('/jobs/drop');
  });
});

describe('measurePages', () => {
  const page = { path: '/', shape: '/', coldMs: 7 };
  it('rounds counted, octets before and after packing told, processor time from the server', async () => {
    let busyMs = 0;
    const measured = await measurePages({ url: base, busyMs: () => (busyMs += 3) }, [page], { roundCount: 5 });
    const body = links['/'] ?? '';
    expect(measured).toMatchObject([
      { path: '/', coldMs: 7, count: 5, octets: body.length, sentOctets: gzipSync(body).length },
    ]);
    expect(measured[0]?.busyMs).toEqual({ median: 3, p95: 3 });
    expect(measured[0]?.mostMs).toBeGreaterThanOrEqual(measured[0]?.medianMs ?? Infinity);
  });

  it('told to end: no further round', async () => {
    const goesOn = async (): Promise<boolean> => false;
    const measured = await measurePages({ url: base, busyMs: () => null }, [page], { roundCount: 5, goesOn });
    expect(measured[0]?.count).toBe(0);
  });
});
