/** One request at a time, timed from outside the server, from the first octet sent to the last one read. */
import { Agent, request as httpRequest } from 'node:http';
import { gunzipSync } from 'node:zlib';

export interface Answer {
  readonly elapsedMs: number;
  readonly status: number;
  readonly type: string;
  /** Octets of the body as sent. */
  readonly sentOctets: number;
  /** The body, unpacked. */
  readonly body: Buffer;
}

const agent = new Agent({ keepAlive: true, maxSockets: 1 });

/** Asks as a browser does, which takes packed answers and keeps its connection. */
export const ask = (base: string, path: string, method: 'GET' | 'POST' = 'GET'): Promise<Answer> =>
  new Promise((settle, fail) => {
    const begunMs = performance.now();
    const headers = { 'Accept-Encoding': 'gzip', Accept: 'text/html,*/*' };
    const request = httpRequest(base + path, { method, agent, headers }, (response) => {
      const parts: Buffer[] = [];
      response.on('data', (part: Buffer) => parts.push(part));
      response.once('error', fail);
      response.once('end', () => {
        const elapsedMs = performance.now() - begunMs;
        const sent = Buffer.concat(parts);
        settle({
          elapsedMs,
          status: response.statusCode ?? 0,
          type: response.headers['content-type'] ?? '',
          sentOctets: sent.length,
          body: response.headers['content-encoding'] === 'gzip' ? gunzipSync(sent) : sent,
        });
      });
    });
    request.once('error', fail).end();
  });
