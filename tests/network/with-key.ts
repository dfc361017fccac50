/** The pages with an access key, in this process, and what a stranger sends them. */
import { request as httpRequest } from 'node:http';
import { connect } from 'node:net';
import { type Access, keepAccess, keyDigest } from '../../server/access/index.ts';
import { testServer, type TestServer } from '../pages/test-server.ts';

export const ACCESS_KEY = 'h4wn7-p2kqe-r9txm-3vbza';

export interface KeyServer extends TestServer {
  /** What was printed of keys tried. */
  readonly said: readonly string[];
  /** Lets time pass for waits and sessions. */
  readonly passMs: (ms: number) => void;
  readonly access: Access;
}

export async function keyServer(): Promise<KeyServer> {
  const said: string[] = [];
  let atMs = 0;
  const access = keepAccess({
    key: keyDigest(ACCESS_KEY),
    nowMs: () => atMs,
    print: (line) => void said.push(line),
  });
  const server = await testServer(undefined, undefined, null, access);
  return { ...server, said, access, passMs: (ms) => void (atMs += ms) };
}

export interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | readonly string[] | undefined>>;
  readonly text: string;
}

/** Asks as it is told: headers a browser's `fetch` would not let one set, redirects not followed. */
export const ask = (
  url: string,
  asked: { method?: string; headers?: Readonly<Record<string, string | string[]>>; body?: string } = {},
): Promise<Answer> =>
  new Promise((settle, fail) => {
    const { method = 'GET', headers = {}, body } = asked;
    const request = httpRequest(url, { method, headers: { ...headers }, agent: false }, (response) => {
      const chunks: Buffer[] = [];
      response.on('data', (chunk: Buffer) => chunks.push(chunk));
      response.once('error', fail);
      response.once('end', () =>
        settle({
          status: response.statusCode ?? 0,
          headers: response.headers,
          text: Buffer.concat(chunks).toString(),
        }),
      );
    });
    request.once('error', fail).end(body);
  });

const FORM = { 'Content-Type': 'application/x-www-form-urlencoded' };

/** Sends a form as a page of ours does over plain HTTP. */
export const postForm = (
  url: string,
  fields: Readonly<Record<string, string>>,
  headers: Readonly<Record<string, string>> = {},
): Promise<Answer> =>
  ask(url, {
    method: 'POST',
    headers: { ...FORM, Origin: new URL(url).origin, ...headers },
    body: new URLSearchParams(fields).toString(),
  });

/** `name=value` of the session in an answer; empty: it sets none. */
export function sessionIn(answer: Answer): string {
  const set = answer.headers['set-cookie'];
  const cookies = typeof set === 'string' ? [set] : (set ?? []);
  return cookies.map((cookie) => cookie.split(';')[0] ?? '').find((pair) => pair.startsWith('slatch_id=')) ?? '';
}

/** Everything a server answers to octets sent as they are, until it closes the line, says `last`, or 15 s have passed. */
export const rawAnswer = (url: string, octets: string, last: string | null = null): Promise<string> =>
  new Promise((settle) => {
    const { hostname, port } = new URL(url);
    const socket = connect(Number(port), hostname.replaceAll(/[[\]]/g, ''));
    let answer = '';
    const end = (): void => {
      clearTimeout(timer);
      socket.destroy();
      settle(answer);
    };
    const timer = setTimeout(end, 15_000);
    socket.on('data', (chunk: Buffer) => {
      answer += chunk.toString('latin1');
      if (last !== null && answer.includes(last)) end();
    });
    socket.once('close', end).on('error', end);
    socket.write(octets);
  });

/** Status codes of the answers in what came over a line. */
export const statusesIn = (answer: string): readonly number[] =>
  [...answer.matchAll(/HTTP\/1\.[01] (\d{3}) /g)].map(([, status]) => Number(status));
