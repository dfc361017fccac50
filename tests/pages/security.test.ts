import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { statusOf, testServer, type TestServer } from './test-server.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const form = { 'Content-Type': 'application/x-www-form-urlencoded' };

describe('hosts', () => {
  it.each(['evil.example', 'evil.example:80', '127.0.0.1', 'localhost:1'])('%s: 421', async (host) => {
    expect(await statusOf(server.url, { headers: { Host: host } })).toBe(421);
  });

  it('its own: 200', async () => {
    expect(await statusOf(server.url, { headers: { Host: server.host } })).toBe(200);
  });
});

/** Fetch Metadata Request Headers, W3C: the values of Sec-Fetch-Site. */
describe('changes from elsewhere', () => {
  const change = (headers: Readonly<Record<string, string>>): Promise<number> =>
    statusOf(`${server.url}/style`, {
      method: 'POST',
      body: 'style=night',
      headers: { ...form, ...headers, Host: server.host },
    });

  it.each([
    ['another site', { 'Sec-Fetch-Site': 'cross-site' }, 403],
    ['a sister site', { 'Sec-Fetch-Site': 'same-site' }, 403],
    ['a foreign origin, browser without fetch metadata', { Origin: 'http://evil.example' }, 403],
    ['a hidden origin', { Origin: 'null' }, 403],
    ['a page of ours', { 'Sec-Fetch-Site': 'same-origin', Origin: 'http://x' }, 303],
    ['the address bar', { 'Sec-Fetch-Site': 'none' }, 303],
    ['a program', {}, 303],
  ])('%s', async (_, headers, status) => {
    expect(await change(headers)).toBe(status);
  });

  it('own origin, browser without fetch metadata: accepted', async () => {
    expect(await change({ Origin: server.url })).toBe(303);
  });
});

describe('headers', () => {
  it.each(['/', '/nothing', '/static/page.css'])('%s: policy without exceptions', async (path) => {
    const { headers } = await fetch(server.url + path);
    const policy = headers.get('Content-Security-Policy') ?? '';
    expect(policy).toMatch(/^default-src 'none';/);
    expect(policy).not.toMatch(/unsafe|\*|https?:|data:/);
    expect(headers.get('X-Content-Type-Options')).toBe('nosniff');
    // `no-referrer` would make browsers send `Origin: null` with our own forms.
    expect(headers.get('Referrer-Policy')).toBe('same-origin');
  });

  it('a large form: refused', async () => {
    const body = `style=${'x'.repeat(4096)}`;
    const status = await statusOf(`${server.url}/style`, {
      method: 'POST',
      body,
      headers: { ...form, Host: server.host },
    });
    expect(status).toBe(413);
  });
});
