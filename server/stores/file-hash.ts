import { createHash } from 'node:crypto';
import { type FileHandle, open } from 'node:fs/promises';

const CHUNK_OCTETS = 262_144;

/** A stretch of an open file, in pieces; fewer octets where the file ends before. */
export async function* octetsAt(handle: FileHandle, at: number, sizeOctets: number): AsyncGenerator<Uint8Array> {
  for (let done = 0; done < sizeOctets;) {
    const piece = new Uint8Array(Math.min(CHUNK_OCTETS, sizeOctets - done));
    // oxlint-disable-next-line no-await-in-loop
    const { bytesRead } = await handle.read(piece, 0, piece.length, at + done);
    if (bytesRead === 0) return;
    done += bytesRead;
    yield piece.subarray(0, bytesRead);
  }
}

/** SHA-256 of a file, 64 hexadecimal digits. */
export async function sha256OfFile(path: string): Promise<string> {
  const handle = await open(path, 'r');
  try {
    const hash = createHash('sha256');
    for await (const piece of octetsAt(handle, 0, Infinity)) hash.update(piece);
    return hash.digest('hex');
  } finally {
    await handle.close();
  }
}
