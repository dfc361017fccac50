/** Octets sent to a server, and all it answers until the connection is closed. */
import { connect } from 'node:net';
import type { SentRequest } from './sent-request.ts';

/** What came of a connection. */
export interface Exchange {
  /** All octets that came. */
  readonly answer: Buffer;
  /** From the last octet sent to the last one read [ms]. */
  readonly tookMs: number;
  /** It was still open when nobody waited any longer. */
  readonly isStuck: boolean;
}

/** Wall time; a busy machine is no fault of the server. */
const MOST_MS = 15_000;

/** A server that waits for more of a request that is cut learns after so long that there is none [ms]. */
const PATIENCE_MS = 120;

/** `isWhole`: the server closes the connection once it has answered; else we close our end when nothing more comes. */
export function exchange(
  port: number,
  { octets, isWhole }: Pick<SentRequest, 'octets' | 'isWhole'>,
): Promise<Exchange> {
  return new Promise((settle) => {
    const chunks: Buffer[] = [];
    const startMs = performance.now();
    const socket = connect({ port, host: '127.0.0.1', allowHalfOpen: true });
    let isStuck = false;
    const timer = setTimeout(() => {
      isStuck = true;
      socket.destroy();
    }, MOST_MS);
    if (!isWhole) socket.setTimeout(PATIENCE_MS, () => socket.end());
    socket.on('data', (chunk) => chunks.push(chunk));
    // A server may close while we still send: what it answered until then counts.
    socket.on('error', () => socket.destroy());
    socket.on('end', () => socket.destroy());
    socket.on('close', () => {
      clearTimeout(timer);
      settle({ answer: Buffer.concat(chunks), tookMs: performance.now() - startMs, isStuck });
    });
    socket.write(octets);
  });
}
