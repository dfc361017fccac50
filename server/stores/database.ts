import Database from 'libsql';
import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { versionOnDisk } from './disk-version.ts';
import { migrations } from './migrations/index.ts';
import { keepCopyBefore } from './snapshot.ts';
import { newerStore, notMigrated, notOurs, troubleOf } from './store-problems.ts';

/** How long a command waits for another one to finish writing. */
const BUSY_MS = 10_000;

type Row = Readonly<Record<string, string | number | Uint8Array | null>>;

/** The one connection of a process to the store; every failure of disk or database becomes a problem. */
export interface Connection {
  /** Rows of a query, each checked against a schema. */
  all<T>(schema: z.ZodType<T>, sql: string, values: Row): T[];
  /** First row of a query, or null. */
  first<T>(schema: z.ZodType<T>, sql: string, values: Row): T | null;
  /** Changes something; number of rows changed. */
  run(sql: string, values: Row): number;
  /** All of `work` or nothing; on disk when it returns. Work that answers with problems changes nothing. */
  write<T>(work: () => Result<T>): Result<T>;
  /** Reads, with failures as problems. */
  read<T>(work: () => T): Result<T>;
  close(): void;
}

/**
 * Opens the database of a store, making or bringing it up to date as needed; one that is brought up to date is copied
 * first (`slatch-before-0008.db`), and one of a newer version is not touched.
 *
 * WAL with `synchronous=FULL`: one fsync for each commit, so what was acknowledged survives a power cut.
 *
 * @param steps the migrations; those of this version unless told
 * @returns `store.cannot-write` | `store.damaged` | `store.newer` | `store.not-migrated` | `store.busy` | `store.disk-full`
 */
export function openDatabase(path: string, steps: readonly string[] = migrations): Result<Connection> {
  return attempt(path, () => {
    if ((versionOnDisk(path) ?? 0) > steps.length) return failed(newerStore(path));
    const database = new Database(path);
    try {
      database.exec(`PRAGMA busy_timeout = ${BUSY_MS}`);
      database.exec('PRAGMA journal_mode = WAL');
      database.exec('PRAGMA synchronous = FULL');
      database.exec('PRAGMA foreign_keys = ON');
      const connection = connect(database, path);
      const migrated = migrate(database, connection, { path, steps });
      if (!migrated.ok) database.close();
      return migrated.ok ? ok(connection) : migrated;
    } catch (error) {
      database.close();
      throw error;
    }
  });
}

function connect(database: Database.Database, path: string): Connection {
  return {
    all: (schema, sql, values) =>
      database
        .prepare(sql)
        .all(values)
        .map((row) => schema.parse(row)),
    first: (schema, sql, values) => {
      const row = database.prepare(sql).get(values);
      return row === undefined ? null : schema.parse(row);
    },
    run: (sql, values) => database.prepare(sql).run(values).changes,
    write: (work) => attempt(path, () => inTransaction(database, work)),
    read: (work) => attempt(path, () => ok(work())),
    close: () => {
      emptyLog(database);
      database.close();
    },
  };
}

function inTransaction<T>(database: Database.Database, work: () => Result<T>): Result<T> {
  database.exec('BEGIN IMMEDIATE');
  try {
    const result = work();
    if (result.ok) database.exec('COMMIT');
    else if (database.inTransaction) database.exec('ROLLBACK');
    return result;
  } catch (error) {
    // A full disk may have rolled back already.
    if (database.inTransaction) database.exec('ROLLBACK');
    throw error;
  }
}

/** So that `slatch.db` alone holds everything once nobody has it open; left to the next opening where it cannot be done. */
function emptyLog(database: Database.Database): void {
  try {
    database.exec('PRAGMA busy_timeout = 0');
    database.exec('PRAGMA wal_checkpoint(TRUNCATE)');
  } catch (error) {
    if (troubleOf(error, '') === null) throw error;
  }
}

const userVersion = z.object({ user_version: z.number() });
const count = z.object({ count: z.number() });

/**
 * Runs the migrations that this database has not had, all of them or none, and keeps a copy of what was there before.
 * Killed or refused in the middle, the database is as it was.
 */
function migrate(
  database: Database.Database,
  connection: Connection,
  { path, steps }: { path: string; steps: readonly string[] },
): Result<null> {
  const versionOf = (): number => connection.first(userVersion, 'PRAGMA user_version', {})?.user_version ?? 0;
  if (versionOf() === steps.length) return ok(null);
  return connection.write(() => {
    // Read again inside: another process may have been quicker.
    const version = versionOf();
    if (version > steps.length) return failed(newerStore(path));
    if (version === steps.length) return ok(null);
    const held = connection.first(count, 'SELECT count(*) AS count FROM sqlite_schema', {})?.count ?? 0;
    if (version === 0 && held > 0) return failed(notOurs(path));
    const copied = held === 0 ? ok(null) : keepCopyBefore(path, steps.length);
    return copied.ok ? stepped(database, steps, { path, version }) : copied;
  });
}

function stepped(
  database: Database.Database,
  steps: readonly string[],
  { path, version }: { path: string; version: number },
): Result<null> {
  try {
    for (const step of steps.slice(version)) database.exec(step);
    database.exec(`PRAGMA user_version = ${steps.length}`);
    return ok(null);
  } catch (error) {
    // What the disk does is told in its own words.
    if (troubleOf(error, path) !== null) throw error;
    return failed(notMigrated(path, error instanceof Error ? error.message : String(error)));
  }
}

/** Turns failures of disk and database into problems; mistakes of ours pass through. */
export function attempt<T>(where: string, work: () => Result<T>): Result<T> {
  try {
    return work();
  } catch (error) {
    const problem = troubleOf(error, where);
    if (problem === null) throw error;
    return failed(problem);
  }
}
