import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { ok, type Result } from '../../lib/result/index.ts';
import { attempt, openDatabase } from './database.ts';
import { documentStore, type DocumentStore } from './documents.ts';
import { forecastStore, type ForecastStore } from './forecasts.ts';
import { sweepParts } from './grib-files.ts';
import { logStore, type LogStore } from './log.ts';
import { messageStore, type MessageStore } from './messages.ts';
import { passageStore, type PassageStore } from './passages.ts';
import { planViewStore, type PlanViewStore } from './plan-views.ts';
import { planStore, type PlanStore } from './plans.ts';

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

/**
 * Opens a store, making it when the folder has none, and removes half-written files of writers that are gone.
 *
 * @returns `store.cannot-write` | `store.damaged` | `store.newer` | `store.busy`
 */
export function openStore(folder: string): Result<Store> {
  const gribFolder = join(folder, 'grib');
  const prepared = attempt(folder, () => {
    mkdirSync(gribFolder, { recursive: true });
    sweepParts(gribFolder);
    return ok(null);
  });
  if (!prepared.ok) return prepared;
  const opened = openDatabase(join(folder, 'slatch.db'));
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
