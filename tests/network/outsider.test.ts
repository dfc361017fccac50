/** The program on an address others can reach, as somebody on the next boat would go at it. */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { connect, type Socket } from 'node:net';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { setTimeout as wait } from 'node:timers/promises';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { type Program, startProgram } from '../browser/stories/program.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { demoText } from '../pages/test-documents.ts';
import { ownAddress } from './own-address.ts';
import { ACCESS_KEY, ask, postForm, rawAnswer, sessionIn, statusesIn } from './with-key.ts';

const host = ownAddress();

/** The passage without a forecast: nothing is searched. */
function passageFile(folder: string): string {
  const path = join(folder, 'passage.json');
  writeFileSync(path, JSON.stringify({ ...(JSON.parse(demoText) as object), forecasts: [] }));
  return path;
}

describe.skipIf(host === null)('a stranger on the same network', () => {
  let program: Program;
  let folder = '';
  let port = 0;
  let session = '';
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'slatch-stranger-'));
    program = await startProgram({
      passageFile: passageFile(folder),
      door: { host: host ?? '', accessKey: `${ACCESS_KEY}\n` },
    });
    port = Number(new URL(program.url).port);
    session = sessionIn(await postForm(`${program.url}/key`, { key: ACCESS_KEY }));
  });
  afterAll(async () => {
    await program.stop();
    rmSync(folder, { recursive: true, force: true });
  });

  const status = async (path: string, headers: Readonly<Record<string, string>> = {}): Promise<number> =>
    (await ask(program.url + path, { headers })).status;
  const raw = (lines: readonly string[]): Promise<string> => rawAnswer(program.url, [...lines, '', ''].join('\r\n'));
  const own = (): string => `Host: ${host}:${port}`;
  const lastly = 'Connection: close';

  it('is told on the terminal that others can reach it, and listens on that address alone', async () => {
    expect(program.said()).toContain('Others on that network can reach it, and need the access key.');
    const refused = await new Promise((settle) =>
      connect(port, '127.0.0.1')
        .once('error', settle)
        .once('connect', () => settle('open')),
    );
    expect(refused).toMatchObject({ code: 'ECONNREFUSED' });
  });

  it('reads: nothing without the key, all of it with it', async () => {
    const paths = ['/', '/document/passage.json', '/plan.ics', '/log.csv', '/locker.csv', '/jobs/stitch', '/nothing'];
    expect(await Promise.all(paths.map((path) => status(path)))).toEqual(paths.map(() => 401));
    expect(await Promise.all(paths.map((path) => status(path, { Cookie: session })))).toEqual([
      200,
      200,
      expect.any(Number),
      200,
      200,
      200,
      404,
    ]);
  });

  it('replays a cookie it saw, after its owner signed out: over', async () => {
    const seen = sessionIn(await postForm(`${program.url}/key`, { key: ACCESS_KEY }));
    expect(await status('/', { Cookie: seen })).toBe(200);
    await postForm(`${program.url}/key/leave`, {}, { Cookie: seen });
    expect(await status('/', { Cookie: seen })).toBe(401);
  });

  it('points a name of its own at this machine (DNS rebinding): not answered, cookie or not', async () => {
    for (const name of [
      'evil.example',
      `evil.example:${port}`,
      `127.0.0.1:${port}`,
      `localhost:${port}`,
      `${host}`,
      '',
    ])
      expect(statusesIn(await raw(['GET / HTTP/1.1', `Host: ${name}`, `Cookie: ${session}`, lastly]))).toEqual([421]);
  });

  it('has the browser of the crew send a form: refused, whatever it is', async () => {
    for (const origin of ['http://evil.example', 'null', `http://${host}:${port + 1}`, `https://${host}:${port}`])
      for (const path of ['/plan/again', '/document/undo', '/key/leave', '/nothing'])
        expect((await postForm(program.url + path, {}, { Cookie: session, Origin: origin })).status).toBe(403);
    expect(await status('/', { Cookie: session })).toBe(200);
  });

  it('climbs out of the folders: finds no file, with a session or without', async () => {
    const climbs = [
      '/static/../../../../../../etc/passwd',
      '/static/..%2f..%2f..%2f..%2fetc%2fpasswd',
      '/static/%2e%2e/%2e%2e/etc/passwd',
      '/static/..\\..\\etc\\passwd',
      '/fonts//etc/passwd',
      '//etc/passwd',
      '/document/../../etc/passwd',
      '/plans/..%2f..%2f..%2fetc%2fpasswd',
      '/jobs/..%2f..%2fpackage.json',
      '/static/slatch.css%00.html',
    ];
    for (const path of climbs) {
      const answers = [
        await raw([`GET ${path} HTTP/1.1`, own(), lastly]),
        await raw([`GET ${path} HTTP/1.1`, own(), `Cookie: ${session}`, lastly]),
      ];
      expect([path, ...answers.flatMap(statusesIn)]).toEqual([
        path,
        401,
        expect.toSatisfy((code: number) => code === 400 || code === 404),
      ]);
      expect(answers.join('')).not.toMatch(/root:|"dependencies"/);
    }
  });

  /** RFC 9112 §2.2, §3, §5, §6.3 and RFC 9110 §15.5; RFC 6585 §5 (431). */
  it.each([
    ['no request', ['hello'], 400],
    ['a request of HTTP/2', ['PRI * HTTP/2.0', '', 'SM'], 400],
    ['a version there is not', ['GET / HTTP/9.9', 'HOST'], 400],
    ['without Host', ['GET / HTTP/1.1'], 400],
    ['two Host fields', ['GET / HTTP/1.1', 'HOST', 'Host: evil.example', 'Connection: close'], 421],
    ['a field with a space before its colon', ['GET / HTTP/1.1', 'HOST', 'Cookie : x'], 400],
    ['NUL in a field', ['GET / HTTP/1.1', 'HOST', 'X: a\0b'], 400],
    ['a length that is no number', ['POST /key HTTP/1.1', 'HOST', 'Content-Length: -5'], 400],
    ['two lengths', ['POST /key HTTP/1.1', 'HOST', 'Content-Length: 5', 'Content-Length: 6'], 400],
    ['length and chunks', ['POST /key HTTP/1.1', 'HOST', 'Content-Length: 5', 'Transfer-Encoding: chunked'], 400],
    ['a coding nobody knows', ['POST /key HTTP/1.1', 'HOST', 'Transfer-Encoding: x, chunked, x'], 400],
    ['a field of 100 kB', ['GET / HTTP/1.1', 'HOST', `X: ${'x'.repeat(100_000)}`], 431],
    ['an address of 100 kB', [`GET /${'x'.repeat(100_000)} HTTP/1.1`, 'HOST'], 431],
    ['3000 fields', ['GET / HTTP/1.1', 'HOST', ...Array.from({ length: 3000 }, (_, n) => `X${n}: x`)], 431],
    ['TRACE', ['TRACE / HTTP/1.1', 'HOST', 'Connection: close'], 405],
    ['OPTIONS for all', ['OPTIONS * HTTP/1.1', 'HOST', 'Connection: close'], 405],
    ['HTTP/1.0 with its name', ['GET / HTTP/1.0', 'HOST'], 401],
    ['HTTP/1.0 without', ['GET / HTTP/1.0'], 421],
    ['an absolute address of ours', ['GET http://OWN/jobs HTTP/1.1', 'HOST', 'Connection: close'], 401],
    ['an absolute address of another', ['GET http://evil.example/ HTTP/1.1', 'HOST', 'Connection: close'], 421],
    ['an absolute address in HTTPS', ['GET https://OWN/ HTTP/1.1', 'HOST', 'Connection: close'], 421],
    [
      'a web socket',
      [
        'GET / HTTP/1.1',
        'HOST',
        'Upgrade: websocket',
        'Connection: Upgrade, close',
        'Sec-WebSocket-Key: x',
        'Sec-WebSocket-Version: 13',
      ],
      401,
    ],
    [
      'HTTP/2 in clear',
      ['GET / HTTP/1.1', 'HOST', 'Upgrade: h2c', 'Connection: Upgrade, close', 'HTTP2-Settings: x'],
      401,
    ],
  ] as const)('sends $0: $2', async (_, lines, code) => {
    const sent = lines.map((one) => one.replace(/^HOST$/, own()).replace('OWN', `${host}:${port}`));
    const answer = await raw(sent);
    expect(statusesIn(answer)[0]).toBe(code);
    expect(answer).not.toMatch(/Torn main|    at |node_modules/);
  });

  it('asks for a tunnel to elsewhere: the line is closed', async () => {
    expect(await raw(['CONNECT evil.example:80 HTTP/1.1', 'Host: evil.example:80'])).not.toMatch(/^HTTP\/1\.1 2/);
  });

  it('sends several requests in one go: answered in their order, each by itself', async () => {
    const one = (path: string, more: readonly string[]): string =>
      [`GET ${path} HTTP/1.1`, own(), ...more, '', ''].join('\r\n');
    const octets = one('/jobs', []) + one('/nothing', [`Cookie: ${session}`]) + one('/jobs', [lastly]);
    expect(statusesIn(await rawAnswer(program.url, octets))).toEqual([401, 404, 401]);
  });

  it('smuggles a second request in the body of a first: it is body', async () => {
    const inner = `GET /document/passage.json HTTP/1.1\r\n${own()}\r\nCookie: ${session}\r\n\r\n`;
    const answer = await raw(['POST /jobs HTTP/1.1', own(), `Content-Length: ${inner.length}`, lastly, '', inner]);
    expect(statusesIn(answer)).toEqual([401]);
  });

  it('opens a hundred lines: 32 are kept, and they are free again once they are closed', async () => {
    const lines: Socket[] = [];
    let closedCount = 0;
    for (let n = 0; n < 100; n += 1) {
      const socket = connect(port, host ?? '').on('error', () => null);
      socket.once('close', () => (closedCount += 1));
      lines.push(socket);
    }
    await expect.poll(() => closedCount, { timeout: 10_000 }).toBeGreaterThanOrEqual(68);
    await wait(200);
    // One of a test before may still be on its way out.
    expect(closedCount).toBeLessThanOrEqual(70);
    for (const socket of lines) socket.destroy();
    await expect.poll(() => status('/').catch(() => 0), { timeout: 10_000 }).toBe(401);
  });

  it.runIf(IS_LONG_RUN)('sends the head of a request by letters: cut within half a minute', async () => {
    const socket = connect(port, host ?? '');
    const closed = new Promise<number>((settle) => socket.once('close', () => settle(performance.now())));
    const begunMs = performance.now();
    socket.on('error', () => null);
    const dripping = setInterval(() => socket.write('x'), 500);
    socket.write('GET / HTTP/1.1\r\nX-');
    const endedMs = await closed;
    clearInterval(dripping);
    expect(endedMs - begunMs).toBeLessThan(30_000);
  });

  it('asks hundreds of times: told to wait after two hundred, and answered again after that', async () => {
    const answers: Awaited<ReturnType<typeof ask>>[] = [];
    const isHeld = (): boolean => answers.some(({ status: code }) => code === 429);
    while (!isHeld() && answers.length < 3000)
      answers.push(...(await Promise.all(Array.from({ length: 10 }, () => ask(`${program.url}/jobs`)))));
    expect(answers.filter(({ status: code }) => code !== 401 && code !== 429)).toEqual([]);
    const waiting = answers.find(({ status: code }) => code === 429);
    expect([waiting?.headers['retry-after'], waiting?.text.includes('Wait a few seconds.')]).toEqual(['1', true]);
    await expect.poll(() => status('/'), { timeout: 10_000, interval: 500 }).toBe(401);
  });

  it('guesses: five are looked at, then it waits; the crew that is in goes on, and the terminal tells', async () => {
    // The bucket of the test before fills again.
    await wait(1500);
    const codes: number[] = [];
    for (let n = 0; n < 8; n += 1) codes.push((await postForm(`${program.url}/key`, { key: `guess-${n}` })).status);
    expect(codes).toEqual([401, 401, 401, 401, 401, 429, 429, 429]);
    expect((await postForm(`${program.url}/key`, { key: ACCESS_KEY })).status).toBe(429);
    expect(await status('/', { Cookie: session })).toBe(200);
    expect(program.said()).toContain(`Wrong access key from ${host}: 5 in a row.`);
    expect(program.said()).not.toContain(`Wrong access key from ${host}: 6 in a row.`);
  });

  it('after all of it: still there, nothing of it on the terminal but keys tried and browsers signed in', async () => {
    expect(program.child.exitCode).toBe(null);
    const lines = program.said().trim().split('\n').slice(2);
    expect(
      lines.filter((line) => !/^(Wrong access key|Signed in: a browser|passage 1, forecasts: )/.test(line)),
    ).toEqual([]);
    expect(program.said()).not.toContain('guess-');
    expect(program.said()).not.toContain(ACCESS_KEY);
  });
});

describe('ownAddress', () => {
  const only = (address: string, internal: boolean) => ({
    x: [{ address, internal, family: 'IPv4' as const, netmask: '', mac: '', cidr: null }],
  });

  it('none but the loopback: null, said; where nothing may be skipped it throws', () => {
    expect(ownAddress(only('192.0.2.9', false), {})).toBe('192.0.2.9');
    expect(ownAddress(only('127.0.0.1', true), {})).toBe(null);
    expect(() => ownAddress(only('127.0.0.1', true), { CI: '1' })).toThrow(/no address but the loopback/);
  });
});
