import { createHash } from 'node:crypto';
import { createReadStream } from 'node:fs';
import { open, rename, rm } from 'node:fs/promises';
import { ok, type Result } from '../../../lib/result/index.ts';
import type { Destination } from './request.ts';

export interface Joined {
  readonly hash: string;
  readonly sizeOctets: number;
  readonly isNew: boolean;
}

/** Puts the files, one after the other, where they belong: whole or not at all. */
export async function putAway(
  partPaths: readonly string[],
  destination: Destination,
  forecast: { fileName: string; atEpochMs: number; mostOctets: number },
): Promise<Result<Joined>> {
  const { hash, sizeOctets } = await sumOf(partPaths);
  if (destination.kind === 'file') {
    await writeBeside(destination.path, partPaths);
    return ok({ hash, sizeOctets, isNew: true });
  }
  const before = destination.forecasts.get(hash);
  if (!before.ok) return before;
  const { credit } = destination;
  const added = await destination.forecasts.add({
    ...forecast,
    content: octetsOf(partPaths),
    ...(credit === undefined ? {} : { credit }),
  });
  return added.ok ? ok({ hash, sizeOctets, isNew: before.value === null }) : added;
}

async function* octetsOf(paths: readonly string[]): AsyncGenerator<Uint8Array> {
  for (const path of paths) {
    for await (const piece of createReadStream(path)) if (piece instanceof Uint8Array) yield piece;
  }
}

async function sumOf(paths: readonly string[]): Promise<{ hash: string; sizeOctets: number }> {
  const hash = createHash('sha256');
  let sizeOctets = 0;
  for await (const piece of octetsOf(paths)) {
    hash.update(piece);
    sizeOctets += piece.length;
  }
  return { hash: hash.digest('hex'), sizeOctets };
}

/** Writes a file beside the one wanted, makes it last, and gives it its name. */
async function writeBeside(path: string, partPaths: readonly string[]): Promise<void> {
  const beside = `${path}.${process.pid}.new`;
  try {
    const file = await open(beside, 'w');
    try {
      for await (const piece of octetsOf(partPaths)) await file.writeFile(piece);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(beside, path);
  } finally {
    await rm(beside, { force: true });
  }
}
