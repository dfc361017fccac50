import Database from 'libsql';
import { existsSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { attempt } from './database.ts';
import { serverRunning } from './store-problems.ts';

export interface ServerLock {
  /** Leaves word for a second server: what this one is, such as its address. Told to people only, never relied on. */
  readonly note: (text: string) => void;
  /** Gives the lock back. */
  readonly release: () => void;
}

/**
 * Makes this process the only server of a store; commands may still read and write beside it.
 *
 * The lock is an exclusive transaction on `server.lock`, a database of its own: the operating system gives it back when
 * the process dies, however it dies, so it can neither go stale nor be mistaken for a later process of the same number.
 *
 * @returns the lock, or `store.server-running` with what the other server said of itself
 */
export function takeServerLock(folder: string): Result<ServerLock> {
  const path = join(folder, 'server.lock');
  const notePath = join(folder, 'server.txt');
  const taken = attempt(path, () => ok(holdExclusively(path)));
  if (!taken.ok) {
    const isBusy = taken.problems.some((problem) => problem.code === 'store.busy');
    return isBusy ? failed(serverRunning(folder, noteOf(notePath))) : taken;
  }
  const note = (text: string): void => writeNote(notePath, text);
  // What an earlier server said of itself is no longer so.
  note(`process ${process.pid}`);
  const release = (): void => {
    note('');
    taken.value();
  };
  return ok({ note, release });
}

/**
 * Whether a server has the store, and what it or the last one said of itself; nothing is changed by looking.
 *
 * @returns `isRunning` null: it cannot be told
 */
export function serverOf(folder: string): { readonly isRunning: boolean | null; readonly note: string } {
  const path = join(folder, 'server.lock');
  const note = noteOf(join(folder, 'server.txt'));
  if (!existsSync(path)) return { isRunning: false, note };
  const taken = attempt(path, () => ok(holdExclusively(path)));
  if (taken.ok) {
    taken.value();
    return { isRunning: false, note };
  }
  return { isRunning: taken.problems.some(({ code }) => code === 'store.busy') ? true : null, note };
}

/** A connection nobody holds on to is closed by the garbage collection, and the lock with it. */
const held = new Set<Database.Database>();

function holdExclusively(path: string): () => void {
  const database = new Database(path);
  try {
    database.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    database.close();
    throw error;
  }
  held.add(database);
  return () => {
    held.delete(database);
    database.exec('ROLLBACK');
    database.close();
  };
}

/** A note that cannot be written is not worth a server that does not start. */
function writeNote(path: string, text: string): void {
  try {
    writeFileSync(path, text);
  } catch {
    return;
  }
}

/** One short line without control characters, whatever the file holds. */
function noteOf(path: string): string {
  try {
    return readFileSync(path, 'utf8')
      .slice(0, 200)
      .replaceAll(/\p{Cc}+/gu, ' ')
      .trim();
  } catch {
    return '';
  }
}
