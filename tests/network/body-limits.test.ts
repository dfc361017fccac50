/** RFC 9110 §15.5.14: 413. Every form there is, sent far too large. */
import { connect } from 'node:net';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { postRoutes } from '../browser/routes-of.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';
import { ask, rawAnswer, statusesIn } from './with-key.ts';

let server: TestServer;
beforeAll(async () => {
  server = await testServer();
});
afterAll(() => server.close());

const FORM = 'application/x-www-form-urlencoded';
const UPLOADS = ['/new', '/forecast/upload'];
const paths = [...new Set(postRoutes())].map((path) => path.replaceAll(/:\w+/g, '1'));

const head = (path: string, fields: readonly string[]): string =>
  [`POST ${path} HTTP/1.1`, `Host: ${server.host}`, `Origin: ${server.url}`, ...fields, '', ''].join('\r\n');
const typeOf = (path: string): string =>
  `Content-Type: ${UPLOADS.includes(path) ? 'multipart/form-data; boundary=b' : FORM}`;

describe('a body that is announced too large', () => {
  it('every form: refused at once, with how much it takes; none of it was waited for', async () => {
    expect(paths.length).toBeGreaterThan(40);
    const answers = await Promise.all(
      paths.map((path) => rawAnswer(server.url, head(path, [typeOf(path), 'Content-Length: 900000000001']), '</html>')),
    );
    for (const [index, answer] of answers.entries()) {
      expect([paths[index], ...statusesIn(answer)]).toEqual([paths[index], 413]);
      expect(answer).toMatch(/900\.0 GB were sent; this page takes \d+(\.\d)? [kM]B at once/);
    }
    expect(server.pressed).toEqual([]);
    expect(server.reported).toEqual([]);
  });
});

describe('a body without announced length', () => {
  /** Sends chunks until the line is closed or so many octets were taken; what was answered. */
  const poured = (path: string, mostOctets: number): Promise<{ answer: string; sentOctets: number }> =>
    new Promise((settle) => {
      const socket = connect(Number(new URL(server.url).port), '127.0.0.1');
      const chunk = `4000\r\n${'x'.repeat(0x4000)}\r\n`;
      const answers: string[] = [];
      let sentOctets = 0;
      const end = (): void => {
        socket.destroy();
        settle({ answer: answers.join(''), sentOctets });
      };
      const pour = (): void => {
        while (answers.length === 0 && sentOctets < mostOctets) {
          sentOctets += 0x4000;
          if (!socket.write(chunk)) return;
        }
        if (sentOctets >= mostOctets) setTimeout(end, 500);
      };
      socket.on('drain', pour).on('error', end).once('close', end);
      socket.on('data', (data: Buffer) => {
        answers.push(data.toString('latin1'));
        setTimeout(end, 50);
      });
      socket.write(head(path, [`Content-Type: ${FORM}`, 'Transfer-Encoding: chunked']));
      pour();
    });

  it.each([
    ['/style', 1 << 10],
    ['/key', 4 << 10],
    ['/jobs', 1 << 18],
    ['/messages/read', 1 << 22],
  ])('%s: refused once %d octets have come, not at its end', async (path, takenOctets) => {
    const { answer, sentOctets } = await poured(path, 64 << 20);
    expect(statusesIn(answer)).toEqual([413]);
    expect(answer).toContain('More was sent than is taken: this page takes');
    // What lies in the buffers of both ends is sent without an answer.
    expect(sentOctets).toBeLessThan(takenOctets + (24 << 20));
  });
});

describe('forms with files', () => {
  const boundary = 'line';
  const part = (disposition: string, content: string): string =>
    `--${boundary}\r\nContent-Disposition: form-data; ${disposition}\r\n\r\n${content}\r\n`;
  const sent = (body: string) =>
    ask(`${server.url}/new`, {
      method: 'POST',
      headers: { 'Content-Type': `multipart/form-data; boundary=${boundary}`, Origin: server.url },
      body: `${body}--${boundary}--\r\n`,
    });

  it('texts of more than 4 MB together: refused, with how much is taken', async () => {
    const { status, text } = await sent(part('name="name"', 'x'.repeat(900_000)).repeat(5));
    expect([status, text.includes('20 files, 1000 fields, 4 MB of text')]).toEqual([413, true]);
  });

  it('a third while two are read: asked to wait; then there is room again', async () => {
    const hold = () => {
      const socket = connect(Number(new URL(server.url).port), '127.0.0.1');
      const type = `Content-Type: multipart/form-data; boundary=${boundary}`;
      socket.on('error', () => undefined).write(head('/new', [type, 'Content-Length: 100000']) + part('name="a"', 'b'));
      return socket;
    };
    const held = [hold(), hold()];
    await expect.poll(async () => (await sent(part('name="name"', 'x'))).status).toBe(503);
    const { headers, text } = await sent(part('name="name"', 'x'));
    expect([headers['retry-after'], text.includes('Others are sending files')]).toEqual(['30', true]);
    for (const socket of held) socket.destroy();
    await expect.poll(async () => (await sent(part('name="name"', 'x'))).status).toBe(422);
  });
});
