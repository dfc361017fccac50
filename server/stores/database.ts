import Database from 'libsql';
import { z } from 'zod';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { migrations } from './migrations/index.ts';
import { newerStore, troubleOf } from './store-problems.ts';

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
 * Opens the database of a store, making or bringing it up to date as needed.
 *
 * WAL with `synchronous=FULL`: one fsync for each commit, so what was acknowledged survives a power cut.
 *
 * @returns `store.cannot-write` | `store.damaged` | `store.newer` | `store.busy`
 */
export function openDatabase(path: string): Result<Connection> {
  return attempt(path, () => {
    const database = new Database(path);
    try {
      database.exec(`PRAGMA busy_timeout = ${BUSY_MS}`);
      database.exec('PRAGMA journal_mode = WAL');
      database.exec('PRAGMA synchronous = FULL');
      database.exec('PRAGMA foreign_keys = ON');
      const connection = connect(database, path);
      const migrated = migrate(database, connection, path);
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
      database.close();
    },
  };
}

function inTransaction<T>(database: Database.Database, work: () => Result<T>): Result<T> {
  database.exec('BEGIN IMMEDIATE');
  try {
    const result = work();
    database.exec(result.ok ? 'COMMIT' : 'ROLLBACK');
    return result;
  } catch (error) {
    // A full disk may have rolled back already.
    if (database.inTransaction) database.exec('ROLLBACK');
    throw error;
  }
}

const userVersion = z.object({ user_version: z.number() });

/** Runs the migrations that this database has not had, each whole or not at all. */
function migrate(database: Database.Database, connection: Connection, path: string): Result<null> {
  const versionOf = (): number => connection.first(userVersion, 'PRAGMA user_version', {})?.user_version ?? 0;
  if (versionOf() > migrations.length) return failed(newerStore(path));
  while (versionOf() < migrations.length) {
    const done = connection.write(() => {
      // Read again inside: another process may have been quicker.
      const version = versionOf();
      const migration = migrations[version];
      if (migration !== undefined) database.exec(`${migration}; PRAGMA user_version = ${version + 1};`);
      return ok(null);
    });
    if (!done.ok) return done;
  }
  return ok(null);
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
