import type { IncomingMessage, Server, ServerResponse } from 'node:http';

interface Patience {
  /** How often it is looked how much of a body came [ms]. */
  readonly everyMs: number;
  /** What must have come since [octets]. */
  readonly leastOctets: number;
  /** How long the rest of a body that nobody wants may go on coming, once it is answered [ms]. */
  readonly restMs: number;
}

/** 100 octets a second: slower than any line somebody would send a form over. */
const PATIENCE: Patience = { everyMs: 10_000, leastOctets: 1000, restMs: 3000 };

/**
 * Cuts off who sends a body so slowly that it would hold its connection for hours, and who goes on sending one that was
 * answered already. An answer to a body that is too large is read by browsers only if the body may go on for a moment.
 */
export function cutSlowBodies(server: Server, patience: Patience = PATIENCE): void {
  server.on('request', (request: IncomingMessage, response: ServerResponse) => {
    if (!hasBody(request)) return;
    const looking = watchBody(request, patience);
    response.once('close', () => clearInterval(looking));
    response.once('finish', () => {
      if (request.complete) return;
      setTimeout(() => {
        if (!request.complete) request.destroy();
      }, patience.restMs).unref();
    });
  });
}

const hasBody = ({ headers }: IncomingMessage): boolean =>
  headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0;

function watchBody(request: IncomingMessage, { everyMs, leastOctets }: Patience): NodeJS.Timeout {
  let beforeOctets = request.socket.bytesRead;
  let slowCount = 0;
  const looking = setInterval(() => {
    const nowOctets = request.socket.bytesRead;
    // What came and waits to be read is not the sender's fault.
    const isSlow = nowOctets - beforeOctets < leastOctets && request.readableLength === 0;
    slowCount = isSlow ? slowCount + 1 : 0;
    if (request.complete) clearInterval(looking);
    // Twice: whoever was made to wait by us has a moment to go on.
    else if (slowCount === 2) request.destroy();
    beforeOctets = nowOctets;
  }, everyMs);
  return looking.unref();
}
