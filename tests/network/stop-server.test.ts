import { createServer, type Server, type ServerResponse } from 'node:http';
import type { AddressInfo } from 'node:net';
import { setTimeout as wait } from 'node:timers/promises';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { stopping } from '../../server/access/stop-server.ts';

let server: Server;
let pending: ServerResponse[] = [];
let isClosed = false;
beforeEach(async () => {
  pending = [];
  isClosed = false;
  server = createServer((request, response) => {
    if (request.url === '/slow') pending.push(response);
    else response.end('at once');
  });
  server.once('close', () => (isClosed = true));
  await new Promise<void>((settle) => server.listen(0, '127.0.0.1', settle));
});
afterEach(() => server.close().closeAllConnections());

const get = (path: string): Promise<string> =>
  fetch(`http://127.0.0.1:${(server.address() as AddressInfo).port}${path}`).then((answer) => answer.text());

/** Asks for what is answered later; what came of it. */
async function begun(): Promise<() => string> {
  let outcome = '';
  void get('/slow').then(
    (text) => (outcome = text),
    () => (outcome = 'cut'),
  );
  await expect.poll(() => pending.length).toBe(1);
  return () => outcome;
}

describe('stopping', () => {
  it('lines that are open and silent: closed at once', async () => {
    expect(await get('/')).toBe('at once');
    stopping(server, 60_000)();
    await expect.poll(() => isClosed).toBe(true);
  });

  it('a request under way: answered, and then it ends; nothing new is taken', async () => {
    const outcome = await begun();
    stopping(server, 60_000)();
    await wait(150);
    expect([isClosed, outcome()]).toEqual([false, '']);
    pending[0]?.end('saved');
    await expect.poll(() => [isClosed, outcome()]).toEqual([true, 'saved']);
  });

  it('a request that takes too long, or a second signal: cut', async () => {
    const first = await begun();
    stopping(server, 100)();
    await expect.poll(() => [isClosed, first()]).toEqual([true, 'cut']);
  });

  it('asked a second time: cut at once', async () => {
    const outcome = await begun();
    const stop = stopping(server, 60_000);
    stop();
    stop();
    await expect.poll(() => [isClosed, outcome()]).toEqual([true, 'cut']);
  });
});
