import { join } from 'node:path';
import { failed, ok, type Result } from '../../lib/result/index.ts';
import { attempt, openDatabase } from './database.ts';
import { versionOnDisk } from './disk-version.ts';
import { documentStore, type DocumentStore } from './documents.ts';
import { forecastStore, type ForecastStore } from './forecasts.ts';
import { logStore, type LogStore } from './log.ts';
import { makeFolder } from './make-folder.ts';
import { messageStore, type MessageStore } from './messages.ts';
import { migrations } from './migrations/index.ts';
import { sweepParts } from './part-files.ts';
import { passageStore, type PassageStore } from './passages.ts';
import { planViewStore, type PlanViewStore } from './plan-views.ts';
import { planStore, type PlanStore } from './plans.ts';
import { newerStore } from './store-problems.ts';

/** Everything the user keeps, in one folder: `slatch.db` and the forecast files beside it. */
export interface Store {
  readonly folder: string;
  readonly passages: PassageStore;
  readonly documents: DocumentStore;
  readonly log: LogStore;
  readonly plans: PlanStore;
  readonly planViews: PlanViewStore;
  readonly messages: MessageStore;
  readonly forecasts: ForecastStore;
  close(): void;
}

/** The database of a store. */
export const databasePath = (folder: string): string => join(folder, 'slatch.db');

/** Where its forecast files lie. */
export const gribFolderOf = (folder: string): string => join(folder, 'grib');

/** `store.newer` of a store that a later version wrote, found out without touching anything in its folder. */
export function refuseNewer(folder: string): Result<null> {
  const path = databasePath(folder);
  return attempt(path, () => ((versionOnDisk(path) ?? 0) > migrations.length ? failed(newerStore(path)) : ok(null)));
}

/**
 * Opens a store, making it when the folder has none, and removes half-written files of writers that are gone. A folder
 * that is made is for its user alone.
 *
 * @returns `store.cannot-write` | `store.damaged` | `store.newer` | `store.not-migrated` | `store.busy` | `store.disk-full`
 */
export function openStore(folder: string): Result<Store> {
  const gribFolder = gribFolderOf(folder);
  const untouched = refuseNewer(folder);
  if (!untouched.ok) return untouched;
  const prepared = attempt(folder, () => {
    makeFolder(gribFolder);
    sweepParts(gribFolder, true);
    sweepParts(folder);
    return ok(null);
  });
  if (!prepared.ok) return prepared;
  const opened = openDatabase(databasePath(folder));
  if (!opened.ok) return opened;
  const connection = opened.value;
  return ok({
    folder,
    passages: passageStore(connection),
    documents: documentStore(connection),
    log: logStore(connection),
    plans: planStore(connection),
    planViews: planViewStore(connection),
    messages: messageStore(connection),
    forecasts: forecastStore(connection, gribFolder),
    close: () => {
      connection.close();
    },
  });
}
