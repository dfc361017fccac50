import type Database from 'libsql';
import { existsSync, renameSync } from 'node:fs';
import { basename, dirname, join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { openReading } from './open-reading.ts';
import { syncFileSync, syncFolderSync, withPartSync } from './part-files.ts';
import { notWhole } from './store-problems.ts';

/** What SQLite says of a database: `ok`, or each fault. */
export function integrityOf(database: Database.Database): readonly string[] {
  const rows: unknown[] = [
    ...database.prepare('PRAGMA integrity_check').all(),
    ...database.prepare('PRAGMA foreign_key_check').all().map(brokenKey),
  ];
  const said = rows.map((row) => String(typeof row === 'object' && row !== null ? Object.values(row)[0] : row));
  return said.filter((line) => line !== 'ok');
}

const brokenKey = (row: unknown): string => `a row of ${tableOf(row)} refers to one that is not there`;
const tableOf = (row: unknown): string =>
  typeof row === 'object' && row !== null && 'table' in row ? String(row.table) : 'a table';

/**
 * Writes one state of a database, whatever others write meanwhile, to a file that is not there yet: whole, checked and on
 * the disk when it returns. The database itself stays as it is, also of another version; a disk that can only be read is
 * no hindrance.
 *
 * @returns `store.damaged` of a database that is not whole; throws what disk and database throw
 */
export function snapshot(path: string, target: string): Result<null> {
  // Neither waits for a writer nor lets one wait.
  openReading(path, (database) => database.prepare('VACUUM INTO ?').run(target));
  syncFileSync(target);
  const faults = openReading(target, integrityOf);
  return faults.length === 0 ? ok(null) : failed(notWhole(path, faults));
}

/**
 * Keeps the database as it is beside itself, before it is changed: `slatch-before-0008.db`, or with a number behind it
 * where that is there. The caller holds the database, so that nothing changes meanwhile.
 *
 * @param version the one it is about to get
 */
export function keepCopyBefore(path: string, version: number): Result<null> {
  const folder = dirname(path);
  return withPartSync(folder, (part) => {
    const copied = snapshot(path, part);
    if (!copied.ok) return copied;
    renameSync(part, freeCopyName(path, version));
    syncFolderSync(folder);
    return ok(null);
  });
}

function freeCopyName(path: string, version: number): string {
  const stem = `${basename(path, '.db')}-before-${String(version).padStart(4, '0')}`;
  const nameOf = (count: number): string => join(dirname(path), `${stem}${count === 1 ? '' : `-${count}`}.db`);
  let count = 1;
  while (existsSync(nameOf(count))) count += 1;
  return nameOf(count);
}

/** Whether a file is one of those copies. */
export const isCopyBefore = (name: string): boolean => /^slatch-before-\d{4}(-\d+)?\.db$/.test(name);
