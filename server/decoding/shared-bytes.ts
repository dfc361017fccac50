import { open } from 'node:fs/promises';

/** The same octets in memory that all threads see; copied only when they are not there yet. */
export function shared(bytes: Uint8Array): Uint8Array {
  if (bytes.buffer instanceof SharedArrayBuffer) return bytes;
  const copy = new Uint8Array(new SharedArrayBuffer(bytes.length));
  copy.set(bytes);
  return copy;
}

/** Reads a whole file into shared memory. Errors are those of the file system. */
export async function readShared(path: string): Promise<Uint8Array> {
  const file = await open(path, 'r');
  try {
    const { size } = await file.stat();
    const bytes = new Uint8Array(new SharedArrayBuffer(size));
    let readOctets = 0;
    while (readOctets < size) {
      const { bytesRead } = await file.read(bytes, readOctets, size - readOctets, readOctets);
      if (bytesRead === 0) break;
      readOctets += bytesRead;
    }
    return bytes.subarray(0, readOctets);
  } finally {
    await file.close();
  }
}
