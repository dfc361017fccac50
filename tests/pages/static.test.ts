import { readFileSync } from 'node:fs';
import { request as httpRequest } from 'node:http';
import { resolve } from 'node:path';
import { gunzipSync } from 'node:zlib';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { testServer, type TestServer } from './test-server.ts';

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly octets: Buffer;
}

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

/** The answer as it was sent: a browser's fetch would unpack it. */
const sent = (path: string, headers: Readonly<Record<string, string>> = {}, method = 'GET'): Promise<Answer> =>
  new Promise((settle, fail) => {
    const request = httpRequest(server.url + path, { method, headers: { ...headers } }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.on('end', () =>
        settle({ status: response.statusCode ?? 0, headers: response.headers, octets: Buffer.concat(parts) }),
      );
    });
    request.once('error', fail).end();
  });

const GZIP = { 'Accept-Encoding': 'gzip, deflate' };
const ownFile = (name: string): string =>
  readFileSync(resolve(import.meta.dirname, '../../views/static', name), 'utf8');

/** Addresses of styles and script on a page. */
async function addressesOf(path: string): Promise<{ styles: string; script: string }> {
  const html = (await sent(path)).octets.toString();
  const [styles = '', ...others] = [...html.matchAll(/<link rel="stylesheet" href="([^"]+)"/g)].map(([, href]) => href);
  expect(others).toEqual([]);
  return { styles, script: /<script src="([^"]+)" defer/.exec(html)?.[1] ?? '' };
}

// RFC 9110 §12.5.3: what a reader takes, with weights; without the field nothing is known, and as it is will do.
describe('packing of a page', () => {
  it.each([
    ['gzip, deflate', 'gzip'],
    ['gzip;q=0', undefined],
    ['identity', undefined],
    ['identity, gzip;q=0.5', undefined],
    ['br', undefined],
    ['*', 'gzip'],
  ])('Accept-Encoding: %s', async (accepted, encoding) => {
    const { headers, octets } = await sent('/plan', { 'Accept-Encoding': accepted });
    expect(headers['content-encoding']).toBe(encoding);
    expect(headers['vary']).toContain('Accept-Encoding');
    expect(Number(headers['content-length'])).toBe(octets.length);
    const text = (encoding === undefined ? octets : gunzipSync(octets)).toString();
    expect(text).toMatch(/^<!doctype html>.*<\/html>$/s);
  });

  it('packed to less than a quarter, the same text', async () => {
    const [plain, packed] = [await sent('/plan'), await sent('/plan', GZIP)];
    expect(gunzipSync(packed.octets).equals(plain.octets)).toBe(true);
    expect(packed.octets.length).toBeLessThan(plain.octets.length / 4);
  });

  it('HEAD: the fields of GET, nothing else (RFC 9110 §9.3.2)', async () => {
    const [head, get] = [await sent('/plan', GZIP, 'HEAD'), await sent('/plan', GZIP)];
    expect(head.octets).toHaveLength(0);
    for (const name of ['content-encoding', 'content-length', 'content-type', 'vary'])
      expect(head.headers[name], name).toBe(get.headers[name]);
  });

  it('an error page: packed with its status', async () => {
    const { status, headers, octets } = await sent('/nothing', GZIP);
    expect([status, headers['content-encoding']]).toEqual([404, 'gzip']);
    expect(gunzipSync(octets).toString()).toContain('No such page');
  });
});

describe('files of every page', () => {
  it('one style sheet, every file in it, print last and for print only', async () => {
    const { styles } = await addressesOf('/');
    const text = (await sent(styles)).octets.toString();
    const placeOf = (name: string): number => text.indexOf(ownFile(name).slice(-200));
    expect(placeOf('page.css')).toBeGreaterThan(0);
    expect(placeOf('sheet.css')).toBeGreaterThan(placeOf('page.css'));
    const print = text.indexOf('@media print {\n@page');
    expect(print).toBeGreaterThan(placeOf('sheet.css'));
    expect(text.slice(print)).toBe(`@media print {\n${ownFile('print.css')}}\n`);
  });

  // RFC 8246: content under an address that says `immutable` never changes.
  it('under the address of its version: kept for a year; under another: asked about each time', async () => {
    const { styles, script } = await addressesOf('/nothing');
    for (const address of [styles, script]) {
      expect(address).toMatch(/\?v=[0-9a-f]{16}$/);
      expect((await sent(address)).headers['cache-control']).toBe('public, max-age=31536000, immutable');
      const [path = ''] = address.split('?');
      expect((await sent(path)).headers['cache-control']).toBe('no-cache');
      expect((await sent(`${path}?v=0123456789abcdef`)).headers['cache-control']).toBe('no-cache');
    }
  });

  it('fonts of the style sheet bear their version and are there', async () => {
    const { styles } = await addressesOf('/');
    const fonts = [...(await sent(styles)).octets.toString().matchAll(/url\((\/fonts\/[^)]+)\)/g)].map(
      ([, path]) => path,
    );
    expect(fonts).toHaveLength(3);
    for (const path of fonts) {
      const { status, headers } = await sent(path ?? '');
      expect([status, headers['content-type']]).toEqual([200, 'font/woff2']);
      expect(headers['cache-control']).toContain('immutable');
    }
  });

  // RFC 9110 §13.1.2 and §8.8.3.3: two forms of one file have validators of their own.
  it('asked again with its validator: 304; packed and not packed differ in it', async () => {
    const plain = await sent('/static/slatch.css');
    const packed = await sent('/static/slatch.css', GZIP);
    expect(packed.headers['etag']).not.toBe(plain.headers['etag']);
    for (const [headers, { headers: before }] of [
      [{}, plain],
      [GZIP, packed],
    ] as const) {
      const again = await sent('/static/slatch.css', { ...headers, 'If-None-Match': String(before['etag']) });
      expect([again.status, again.octets.length]).toEqual([304, 0]);
    }
    const other = await sent('/static/slatch.css', { 'If-None-Match': String(packed.headers['etag']) });
    expect(other.status).toBe(200);
  });

  it('fonts are packed already: sent as they are', async () => {
    const { headers } = await sent('/fonts/b612-latin-400-normal.woff2', GZIP);
    expect(headers['content-encoding']).toBeUndefined();
  });
});
