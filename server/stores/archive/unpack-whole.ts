import { randomUUID } from 'node:crypto';
import { existsSync, readdirSync, renameSync, rmdirSync, rmSync } from 'node:fs';
import path from 'node:path';
import { failed, ok, type Result } from '../../../lib/result/index.ts';
import { makeFolder } from '../make-folder.ts';
import { isAlive, syncFolderSync } from '../part-files.ts';
import { freeOctetsOn, noRoomFor } from '../store-problems.ts';
import type { ArchiveKind } from './archive-kind.ts';
import { type Archive, unpack, withArchive } from './read-archive.ts';

export interface UnpackWhole {
  /** The archive. */
  readonly file: string;
  readonly kind: ArchiveKind;
  /** Folder everything is to be in. */
  readonly folder: string;
  /** Where what is there now is moved to; null: nothing is there. */
  readonly asideFolder: string | null;
  /** What must hold of its names, before anything is written. */
  readonly checkNames: (archive: Archive) => Result<null>;
  /** What must hold of the whole, in a folder of its own, before it takes its place. */
  readonly checkFolder: (fresh: string) => Promise<Result<null>>;
}

/** Whether a folder holds anything. */
export const isOccupied = (folder: string): boolean => existsSync(folder) && readdirSync(folder).length > 0;

/**
 * Unpacks an archive into a folder whole or not at all: beside it first, held against its hashes and looked at, then by
 * renaming. What was there is moved aside and never deleted.
 *
 * @returns the archive; `archive.*`, `store.disk-full`, or what the checks find. Throws what the disk throws
 */
export function unpackWhole({ file, kind, ...of }: UnpackWhole): Promise<Result<Archive>> {
  const folder = path.resolve(of.folder);
  return withArchive(file, kind, async (archive, handle) => {
    const named = of.checkNames(archive);
    if (!named.ok) return named;
    const room = roomFor(archive, folder);
    if (!room.ok) return room;
    makeFolder(path.dirname(folder));
    sweepUnpacked(folder);
    const fresh = `${folder}${UNPACKING}${process.pid}-${randomUUID()}`;
    try {
      makeFolder(fresh);
      const unpacked = await unpack({ archive, handle, where: file }, fresh);
      if (!unpacked.ok) return unpacked;
      const checked = await of.checkFolder(fresh);
      if (!checked.ok) return checked;
      takePlace(fresh, folder, of.asideFolder);
      return ok(archive);
    } finally {
      rmSync(fresh, { recursive: true, force: true });
    }
  });
}

const UNPACKING = '.unpacking-';

/** What a program that was killed has left. */
function sweepUnpacked(folder: string): void {
  const inFolder = path.dirname(folder);
  const start = `${path.basename(folder)}${UNPACKING}`;
  for (const name of readdirSync(inFolder))
    if (name.startsWith(start) && !isAlive(Number(/^\d+/.exec(name.slice(start.length))?.[0] ?? process.pid)))
      rmSync(path.join(inFolder, name), { recursive: true, force: true });
}

function roomFor({ entries }: Archive, folder: string): Result<null> {
  const neededOctets = entries.reduce((sum, { sizeOctets }) => sum + sizeOctets, 0);
  const freeOctets = freeOctetsOn(folder);
  return freeOctets === null || freeOctets >= neededOctets
    ? ok(null)
    : failed(noRoomFor(folder, { neededOctets, freeOctets }));
}

/** By renaming alone; where the second name cannot be given, the first is taken back. */
function takePlace(fresh: string, folder: string, aside: string | null): void {
  if (aside !== null) renameSync(folder, aside);
  else if (existsSync(folder)) rmdirSync(folder);
  try {
    renameSync(fresh, folder);
  } catch (error) {
    if (aside !== null && !existsSync(folder)) renameSync(aside, folder);
    throw error;
  }
  syncFolderSync(path.dirname(folder));
}
