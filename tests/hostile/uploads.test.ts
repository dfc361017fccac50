/** Forms with files that lie in their frame (RFC 7578; RFC 2046, 5.1.1): refused or read, and the server answers the next. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { exchange } from '../../scripts/mutate-text/http/exchange.ts';
import { type TestServer, testServer } from '../pages/test-server.ts';

const BOUNDARY = 'slatch-boundary';
const END = `--${BOUNDARY}--\r\n`;
const part = (head: string, content: string): string =>
  `--${BOUNDARY}\r\nContent-Disposition: form-data${head}\r\n\r\n${content}\r\n`;
const text = (name: string, content: string): string => part(`; name="${name}"`, content);
const file = (fileName: string, sizeOctets: number): string =>
  part(`; name="file"; filename="${fileName}"`, 'x'.repeat(sizeOctets));

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

async function statusOf(body: string): Promise<string> {
  const head = [
    'POST /new HTTP/1.1',
    `Host: ${server.host}`,
    `Content-Type: multipart/form-data; boundary=${BOUNDARY}`,
    `Content-Length: ${Buffer.byteLength(body)}`,
    'Connection: close',
  ];
  const octets = Buffer.from(`${head.join('\r\n')}\r\n\r\n${body}`);
  const { answer, isStuck } = await exchange(Number(new URL(server.url).port), { octets, isWhole: true });
  return isStuck ? 'no end' : (/^HTTP\/1\.1 (\d+)/.exec(answer.toString())?.[1] ?? 'nothing');
}

describe('a form with files', () => {
  it.each([
    ['a part without a name', part('', 'x') + END, '422'],
    [
      'a file that begins after the end of the form',
      text('name', 'x') + END + text('name', 'y') + file('a', 70_000) + END,
      '400',
    ],
    ['text after the end of the form', text('name', 'x') + END + 'y'.repeat(200_000), '422'],
    ['a file nobody asked for', file('a', 200_000) + END, '422'],
    ['a name that leads out of the folder', file('../../a.grib', 10) + END, '422'],
    ['no end', file('a', 70_000), '400'],
    ['nothing', '', '400'],
    ['ends only', `--${BOUNDARY}\r\n`.repeat(3000), '400'],
    ['21 files', file('a', 10).repeat(21) + END, '413'],
    ['1001 fields', text('a', '').repeat(1001) + END, '413'],
  ])('%s: refused so, and the next form is read', async (_, body, status) => {
    expect(await statusOf(body)).toBe(status);
    expect(await statusOf(text('name', 'x') + END)).toBe('422');
    expect(server.reported).toEqual([]);
  });
});
