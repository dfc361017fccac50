/** A server on loopback that breaks the line at drawn places. */
import { createHash } from 'node:crypto';
import { once } from 'node:events';
import { createServer, type IncomingMessage, type Server, type ServerResponse } from 'node:http';
import { seededRandom } from './seeded-random.ts';

export interface FlakyFile {
  readonly octets: Uint8Array;
  /** Answers every wish with the whole file. */
  readonly ignoresRanges?: boolean;
  /** Sends no Content-Length (chunked). */
  readonly isChunked?: boolean;
  readonly etag?: string | null;
}

export interface FlakyServer {
  readonly root: string;
  readonly files: Map<string, FlakyFile>;
  /** Requests seen: path and Range. */
  readonly seen: { readonly path: string; readonly range: string | null; readonly wasCut: boolean }[];
  close(): Promise<void>;
}

/** @param cutShare share of connections that are cut: a quarter of them before the head, the rest after drawn octets */
export async function flakyServer(cutShare: number, seed: number): Promise<FlakyServer> {
  const random = seededRandom(seed);
  const files = new Map<string, FlakyFile>();
  const seen: { path: string; range: string | null; wasCut: boolean }[] = [];
  const server = createServer((request, response) => {
    const wasCut = random() < cutShare;
    const file = files.get(request.url ?? '');
    seen.push({ path: request.url ?? '', range: request.headers.range ?? null, wasCut });
    if (file === undefined) {
      response.writeHead(404).end();
    } else if (wasCut && random() < 0.25) {
      request.socket.destroy();
    } else {
      answer(request, response, { file, cutRatio: wasCut ? random() : null });
    }
  });
  server.listen(0, '127.0.0.1');
  await once(server, 'listening');
  return { root: `http://127.0.0.1:${portOf(server)}`, files, seen, close: () => closed(server) };
}

function answer(
  request: IncomingMessage,
  response: ServerResponse,
  { file, cutRatio }: { file: FlakyFile; cutRatio: number | null },
): void {
  const wholeOctets = file.octets.length;
  const etag = file.etag === undefined ? `"${createHash('md5').update(file.octets).digest('hex')}"` : file.etag;
  const part = partAsked(request, file, etag);
  if (part !== null && part.startOctet >= wholeOctets) {
    response.writeHead(416, { 'content-range': `bytes */${wholeOctets}` }).end();
    return;
  }
  const { startOctet, endOctet } = part ?? { startOctet: 0, endOctet: wholeOctets };
  const body = file.octets.subarray(startOctet, endOctet);
  if (etag !== null) response.setHeader('etag', etag);
  if (file.isChunked !== true) response.setHeader('content-length', body.length);
  if (part !== null) response.setHeader('content-range', `bytes ${startOctet}-${endOctet - 1}/${wholeOctets}`);
  response.writeHead(part === null ? 200 : 206);
  if (cutRatio === null) {
    response.end(body);
    return;
  }
  // The head too goes with the first octets: without any, nothing is sent at all.
  response.write(body.subarray(0, Math.floor(cutRatio * body.length)), () => request.socket.destroy());
}

/** The part asked for; null: the whole file is sent (RFC 9110 §13.1.5 and §14.2). */
function partAsked(
  { headers }: IncomingMessage,
  { octets, ignoresRanges }: FlakyFile,
  etag: string | null,
): { startOctet: number; endOctet: number } | null {
  const [, from, to] = /^bytes=(\d+)-(\d*)$/.exec(headers.range ?? '') ?? [];
  const condition = headers['if-range'];
  if (from === undefined || ignoresRanges === true || (condition !== undefined && condition !== etag)) return null;
  return { startOctet: Number(from), endOctet: to ? Math.min(octets.length, Number(to) + 1) : octets.length };
}

function portOf(server: Server): number {
  const address = server.address();
  if (address === null || typeof address === 'string') throw new Error('the server has no port');
  return address.port;
}

async function closed(server: Server): Promise<void> {
  server.closeAllConnections();
  server.close();
  await once(server, 'close');
}
