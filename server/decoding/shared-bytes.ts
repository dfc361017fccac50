import { readWholeFile } from './whole-file.ts';

/** The same octets in memory that all threads see; copied only when they are not there yet. */
export function shared(bytes: Uint8Array): Uint8Array {
  if (bytes.buffer instanceof SharedArrayBuffer) return bytes;
  const copy = sharedRoom(bytes.length);
  copy.set(bytes);
  return copy;
}

const sharedRoom = (sizeOctets: number): Uint8Array => new Uint8Array(new SharedArrayBuffer(sizeOctets));

/** Reads a whole file into shared memory; as `readWholeFile`. */
export const readShared = (path: string): Promise<Uint8Array> => readWholeFile(path, sharedRoom);
