import path from 'node:path';
import { failed, ok, okUnless, type Result } from '../../lib/result/index.ts';
import { notAsListed } from './archive/archive-problems.ts';
import type { Archive } from './archive/read-archive.ts';
import { isOccupied, unpackWhole } from './archive/unpack-whole.ts';
import { versionOnDisk } from './disk-version.ts';
import { GRIB_NAME } from './grib-files.ts';
import { migrations } from './migrations/index.ts';
import { databasePath } from './open-store.ts';
import { takeServerLock } from './server-lock.ts';
import { attemptLater, newerStore, storeThere } from './store-problems.ts';

export interface RestoreOf {
  /** The backup. */
  readonly file: string;
  /** Folder the store is to be in: new or empty, unless `asideName` is given. */
  readonly folder: string;
  /** Folder what is there now is moved to; null: a folder that holds anything is refused. */
  readonly asideFolder: string | null;
}

export interface Restored {
  readonly folder: string;
  /** Where what was there before is now; null: nothing was. */
  readonly asideFolder: string | null;
  readonly fileCount: number;
  readonly madeAtUtc: string;
  /** Of the backup: what was left out when it was made. */
  readonly remarks: readonly string[];
}

/**
 * A store from its backup. Everything is unpacked and held against its hashes beside the folder first, and takes its place
 * only when it is whole; what was there is moved aside and never deleted.
 *
 * @returns `archive.*`, `store.not-empty`, `store.server-running`, `store.newer`, `store.disk-full`, `store.cannot-write`
 */
export function restoreStore({ file, folder, asideFolder }: RestoreOf): Promise<Result<Restored>> {
  const target = path.resolve(folder);
  return attemptLater(target, async () => {
    const isInTheWay = isOccupied(target);
    if (isInTheWay && asideFolder === null) return failed(storeThere(target));
    const lock = isInTheWay ? takeServerLock(target) : null;
    if (lock !== null && !lock.ok) return lock;
    const aside = isInTheWay ? asideFolder : null;
    try {
      const unpacked = await unpackWhole({
        file,
        kind: 'store',
        folder: target,
        asideFolder: aside,
        checkNames: (archive) => checkNames(archive, file),
        checkFolder: (fresh) => Promise.resolve(notNewer(fresh, file)),
      });
      if (!unpacked.ok) return unpacked;
      const { madeAtUtc, remarks, files } = unpacked.value.manifest;
      return ok({ folder: target, asideFolder: aside, fileCount: files.length, madeAtUtc, remarks });
    } finally {
      lock?.value.release();
    }
  });
}

const notNewer = (fresh: string, where: string): Result<null> =>
  (versionOnDisk(databasePath(fresh)) ?? 0) > migrations.length ? failed(newerStore(where)) : ok(null);

/** A store holds these files, and no others. */
function checkNames({ entries }: Archive, where: string): Result<null> {
  const problems = entries.flatMap(({ name, sha256 }) => {
    if (name === 'slatch.db') return [];
    const [inGrib, ...rest] = name.split('/');
    const hash = inGrib === 'grib' && rest.length === 1 ? GRIB_NAME.exec(rest[0] ?? '')?.[1] : undefined;
    if (hash === undefined) return [notAsListed(where, name, 'A store has no such file.')];
    return hash === sha256 ? [] : [notAsListed(where, name, 'Its content is not what its name says.')];
  });
  if (!entries.some(({ name }) => name === 'slatch.db'))
    problems.push(notAsListed(where, 'slatch.db', 'The database is not in the archive.'));
  return okUnless(problems, () => null);
}
