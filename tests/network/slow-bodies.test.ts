/** Senders that hold a line by saying little (CWE-400): cut off; those that are merely slow are not. */
import { createServer, type IncomingMessage, type Server } from 'node:http';
import { type AddressInfo, connect, type Socket } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { cutSlowBodies } from '../../server/access/slow-bodies.ts';

const EVERY_MS = 10_000;
const PATIENCE = { everyMs: EVERY_MS, leastOctets: 1000, restMs: 300 };
const HEAD = 'POST / HTTP/1.1\r\nHost: x\r\nContent-Length: 100000\r\n\r\n';

let server: Server;
let seen: IncomingMessage[] = [];
let answers: (request: IncomingMessage) => string | null = () => null;
beforeEach(async () => {
  vi.useFakeTimers({ toFake: ['setInterval', 'clearInterval'] });
  seen = [];
  answers = () => null;
  server = createServer((request, response) => {
    seen.push(request);
    const answer = answers(request);
    if (answer !== null) response.end(answer);
    else request.on('data', () => null).once('end', () => response.end('whole'));
    request.on('error', () => null);
  });
  cutSlowBodies(server, PATIENCE);
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
});
afterEach(() => {
  vi.useRealTimers();
  server.close().closeAllConnections();
});

interface Line {
  readonly socket: Socket;
  readonly answer: () => string;
  /** Resolves once the server has closed it. */
  readonly closed: Promise<unknown>;
}

function line(octets: string): Line {
  const socket = connect((server.address() as AddressInfo).port, '127.0.0.1');
  let text = '';
  socket.on('error', () => null).on('data', (chunk: Buffer) => (text += chunk.toString()));
  socket.write(octets);
  return { socket, answer: () => text, closed: new Promise((settle) => socket.once('close', settle)) };
}

/** The looking of the server, when the test says so; each finds what was sent before. */
async function looks(times: number): Promise<void> {
  for (let n = 0; n < times; n += 1) {
    await arrived();
    vi.advanceTimersByTime(EVERY_MS);
  }
}

/** What was sent has come to the server: a few turns of the loop on both ends. */
const arrived = (): Promise<void> => wait(30);

describe('cutSlowBodies', () => {
  it('a body of which nothing comes, or an octet now and then: cut when it is looked a second time', async () => {
    const [silent, dripping] = [line(HEAD), line(HEAD)];
    await expect.poll(() => seen.length).toBe(2);
    for (let n = 0; n < 2; n += 1) {
      expect(seen.map(({ destroyed }) => destroyed)).toEqual([false, false]);
      dripping.socket.write('x');
      await looks(1);
    }
    await Promise.all([silent.closed, dripping.closed]);
    expect([silent.answer(), dripping.answer()]).toEqual(['', '']);
  });

  it('a body that comes slowly but steadily: taken', async () => {
    const slow = line(HEAD);
    await expect.poll(() => seen.length).toBe(1);
    for (let n = 0; n < 10; n += 1) {
      slow.socket.write('x'.repeat(10_000));
      await expect.poll(() => seen[0]?.socket.bytesRead).toBe(HEAD.length + 10_000 * (n + 1));
      await looks(1);
    }
    await expect.poll(slow.answer).toContain('whole');
    slow.socket.destroy();
  });

  it('a body that came and waits to be read: not cut for that, and not as soon as it was read', async () => {
    let read: () => void = () => undefined;
    server.removeAllListeners('request');
    server.on('request', (request, response) => {
      seen.push(request);
      read = () => void request.on('data', () => null).once('end', () => response.end('late'));
    });
    cutSlowBodies(server, PATIENCE);
    const patient = line(HEAD + 'x'.repeat(50_000));
    await expect.poll(() => seen[0]?.readableLength).toBeGreaterThan(0);
    await looks(5);
    read();
    await looks(1);
    expect(seen[0]?.destroyed).toBe(false);
    patient.socket.write('x'.repeat(50_000));
    await expect.poll(patient.answer).toContain('late');
    patient.socket.destroy();
  });

  it('answered before it came to its end: the answer is read, then it is cut', async () => {
    answers = () => 'refused';
    const long = line(HEAD);
    await expect.poll(long.answer).toContain('refused');
    expect(long.socket.destroyed).toBe(false);
    const dripping = setTimeoutAgain(() => long.socket.write('x'.repeat(500)));
    await long.closed;
    dripping.stop();
  });

  it('no body: never cut', async () => {
    const asking = line('GET / HTTP/1.1\r\nHost: x\r\n\r\n');
    await expect.poll(asking.answer).toContain('whole');
    await looks(3);
    expect(asking.socket.destroyed).toBe(false);
    asking.socket.destroy();
  });
});

/** Does something every 20 ms; `setInterval` is held still here. */
function setTimeoutAgain(work: () => void): { readonly stop: () => void } {
  let timer = setTimeout(function again() {
    work();
    timer = setTimeout(again, 20);
  }, 20);
  return { stop: () => clearTimeout(timer) };
}
