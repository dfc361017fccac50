import { createHash } from 'node:crypto';
import { open, rename } from 'node:fs/promises';
import { join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { syncFolder, withPart } from './part-files.ts';
import { fileTooLarge } from './store-problems.ts';

export interface WrittenFile {
  /** SHA-256 of the content, 64 hexadecimal digits. */
  readonly hash: string;
  readonly sizeOctets: number;
}

/** Name of a forecast file of the store. */
export const GRIB_NAME = /^([0-9a-f]{64})\.grib$/;

export const gribPath = (folder: string, hash: string): string => join(folder, `${hash}.grib`);

/**
 * Writes a stream to `<hash>.grib`: first to a `.part`, then fsync, then rename, then fsync of the folder, so that a
 * `.grib` is always whole. The same content twice is one file. A stream that fails or is too long leaves nothing.
 */
export async function writeGribFile(
  folder: string,
  content: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  limit: { mostOctets: number; fileName: string },
): Promise<Result<WrittenFile>> {
  return withPart(folder, async (part) => {
    const written = await writePart(part, content, limit.mostOctets);
    if (written === null) return failed(fileTooLarge(limit.fileName, limit.mostOctets));
    await rename(part, gribPath(folder, written.hash));
    await syncFolder(folder);
    return ok(written);
  });
}

async function writePart(
  part: string,
  content: AsyncIterable<Uint8Array> | Iterable<Uint8Array>,
  mostOctets: number,
): Promise<WrittenFile | null> {
  const hash = createHash('sha256');
  let sizeOctets = 0;
  const file = await open(part, 'wx');
  try {
    for await (const chunk of content) {
      sizeOctets += chunk.length;
      if (sizeOctets > mostOctets) return null;
      hash.update(chunk);
      await file.writeFile(chunk);
    }
    await file.sync();
  } finally {
    await file.close();
  }
  return { hash: hash.digest('hex'), sizeOctets };
}
