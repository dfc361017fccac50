import Database from 'libsql';
import { copyFileSync, existsSync, mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { troubleOf } from './store-problems.ts';

/**
 * Reads a database as it is, of whatever version: nothing in it is changed, and one that is not there is not made. On a disk
 * that can only be read a copy elsewhere is read in its place, since SQLite writes beside a database even to read it.
 *
 * Throws what disk and database throw.
 */
export function openReading<T>(path: string, work: (database: Database.Database) => T): T {
  try {
    return reading(path, work);
  } catch (error) {
    if (troubleOf(error, path)?.code !== 'store.cannot-write') throw error;
    return withCopy(path, (folder) => reading(join(folder, 'slatch.db'), work));
  }
}

/** A copy of a database with its log, as `slatch.db` in a folder of its own that goes away after the work. */
export function withCopy<T>(path: string, work: (folder: string) => T): T {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-reading-'));
  try {
    const copy = join(folder, 'slatch.db');
    for (const end of ['', '-wal']) if (existsSync(path + end)) copyFileSync(path + end, copy + end);
    return work(folder);
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function reading<T>(path: string, work: (database: Database.Database) => T): T {
  // With `rw` a database that is not there is none, instead of a new and empty one.
  const database = new Database(`file:${uriPath(path)}?mode=rw`);
  try {
    database.exec('PRAGMA busy_timeout = 10000');
    return work(database);
  } finally {
    database.close();
  }
}

/** A path as part of a URI (SQLite, URI filenames): `?`, `#` and `%` would mean something else. */
const uriPath = (path: string): string =>
  path
    .replaceAll('%', '%25')
    .replaceAll('?', '%3f')
    .replaceAll('#', '%23')
    .replaceAll('\\', '/')
    .replace(/^([A-Za-z]:)/, '/$1');
