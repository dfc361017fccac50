import { createHash, randomUUID } from 'node:crypto';
import { readdirSync, rmSync } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { fileTooLarge } from './store-problems.ts';

/** Files this process is writing: not leftovers. */
const beingWritten = new Set<string>();

export interface WrittenFile {
  /** SHA-256 of the content, 64 hexadecimal digits. */
  readonly hash: string;
  readonly sizeOctets: number;
}

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
  const part = join(folder, `${process.pid}-${randomUUID()}.part`);
  beingWritten.add(part);
  try {
    const written = await writePart(part, content, limit.mostOctets);
    if (written === null) return failed(fileTooLarge(limit.fileName, limit.mostOctets));
    await rename(part, gribPath(folder, written.hash));
    await syncFolder(folder);
    return ok(written);
  } finally {
    await rm(part, { force: true });
    beingWritten.delete(part);
  }
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

/** Makes the new name itself last; Windows has no such call and needs none. */
async function syncFolder(folder: string): Promise<void> {
  if (process.platform === 'win32') return;
  const handle = await open(folder, 'r');
  try {
    await handle.sync();
  } finally {
    await handle.close();
  }
}

/** Removes the `.part` files whose writer is gone. */
export function sweepParts(folder: string): void {
  for (const name of readdirSync(folder)) {
    const path = join(folder, name);
    if (name.endsWith('.part') && !beingWritten.has(path) && !isWriterAlive(name)) rmSync(path, { force: true });
  }
}

function isWriterAlive(name: string): boolean {
  const pid = Number(/^(\d+)-/.exec(name)?.[1] ?? '0');
  if (pid === 0 || pid === process.pid) return false;
  try {
    process.kill(pid, 0);
    return true;
  } catch (error) {
    return error instanceof Error && 'code' in error && error.code === 'EPERM';
  }
}
