import { resolve } from 'node:path';
import { ok, type Result } from '../lib/result/index.ts';
import { makeFolder, openStore, refuseNewer, type Store, takeServerLock } from './stores/index.ts';

export interface ServerStore {
  readonly store: Store;
  /** Leaves word of this server for a second one. */
  readonly note: (text: string) => void;
  readonly close: () => void;
}

/**
 * Opens the store for the one server it may have. A relative folder is one of the folder of the process.
 *
 * @returns `store.server-running` with what the other server said of itself, or any problem of opening a store
 */
export function openServerStore(folder: string): Result<ServerStore> {
  const absolute = resolve(folder);
  const untouched = refuseNewer(absolute);
  if (!untouched.ok) return untouched;
  const made = folderMade(absolute);
  const lock = made ? takeServerLock(absolute) : null;
  if (lock !== null && !lock.ok) return lock;
  // A folder that cannot be made is told by the store in its own words.
  const opened = openStore(absolute);
  if (!opened.ok) {
    lock?.value.release();
    return opened;
  }
  const store = opened.value;
  const close = (): void => {
    store.close();
    lock?.value.release();
  };
  return ok({ store, note: (text) => lock?.value.note(text), close });
}

function folderMade(folder: string): boolean {
  try {
    makeFolder(folder);
    return true;
  } catch {
    return false;
  }
}
