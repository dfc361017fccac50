import Database from 'libsql';
import { join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { attempt } from './database.ts';
import { serverRunning } from './store-problems.ts';

/**
 * Makes this process the only server of a store; commands may still read and write beside it.
 *
 * The lock is an exclusive transaction on `server.lock`, a database of its own: the operating system gives it back when
 * the process dies, however it dies, so it can neither go stale nor be mistaken for a later process of the same number.
 *
 * @returns a function that gives the lock back, or `store.server-running`
 */
export function takeServerLock(folder: string): Result<() => void> {
  const path = join(folder, 'server.lock');
  const taken = attempt(path, () => ok(holdExclusively(path)));
  const isBusy = !taken.ok && taken.problems.some((problem) => problem.code === 'store.busy');
  return isBusy ? failed(serverRunning(folder)) : taken;
}

function holdExclusively(path: string): () => void {
  const database = new Database(path);
  try {
    database.exec('BEGIN EXCLUSIVE');
  } catch (error) {
    database.close();
    throw error;
  }
  return () => {
    database.exec('ROLLBACK');
    database.close();
  };
}
