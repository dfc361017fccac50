/** What the user keeps: the only door of this folder. */
export type { WrittenArchive } from './archive/write-archive.ts';
export { backUpStore } from './backup.ts';
export { checkStore, type StoreReport } from './check-store.ts';
export { dataFolder, type Machine } from './data-folder.ts';
export {
  type DocumentStore,
  type DocumentSummary,
  type DocumentVersion,
  type NewText,
  type StoredDocument,
  textHash,
  type VersionSummary,
} from './documents.ts';
export type { ForecastCredit, ForecastStore, NewForecast, StoredForecast } from './forecasts.ts';
export type { LogEntry, LogStore, NewLogEntry } from './log.ts';
export type { MessageStore, StoredMessage } from './messages.ts';
export { makeFolder } from './make-folder.ts';
export { openStore, refuseNewer, type Store } from './open-store.ts';
export type { PassageStore, PassageSummary, StoredPassage } from './passages.ts';
export type { PlanViewStore, StoredPlanView } from './plan-views.ts';
export type { NewPlan, PlanStore, PlanSummary, StoredPlan } from './plans.ts';
export { restoreStore, type Restored } from './restore.ts';
export { type ServerLock, takeServerLock } from './server-lock.ts';
