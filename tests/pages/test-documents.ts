/** A store of its own in a temporary folder, with a passage file beside it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Documents, keepDocuments } from '../../server/documents/index.ts';
import { realWorld } from '../../server/fetchers/index.ts';
import { type ForecastKeeper, keepForecasts } from '../../server/keep-forecasts.ts';
import { keepLog, type PassageLog } from '../../server/keep-log.ts';
import { keepMessages, type MessageKeeper } from '../../server/keep-messages.ts';
import { keepPlans, type KeptPlans } from '../../server/keep-plans.ts';
import { openServerStore, type ServerStore } from '../../server/open-server-store.ts';
import type { Store } from '../../server/stores/index.ts';
import { picture } from './fixture-plan.ts';

export const demoFile = resolve(import.meta.dirname, '../../sample-forecasts/demo-passage.json');
export const demoText = readFileSync(demoFile, 'utf8');

export interface TestDocuments {
  readonly documents: Documents;
  readonly log: PassageLog;
  readonly plans: KeptPlans;
  readonly forecasts: ForecastKeeper;
  readonly messages: MessageKeeper;
  readonly store: Store;
  /** The passage file. */
  readonly file: string;
  readonly writeFile: (text: string) => void;
  /** Closes the store and opens it again, as a server that is started anew. */
  readonly restarted: () => Documents;
  /** The same, of the log and the plans. */
  readonly restartedKeeping: () => { readonly log: PassageLog; readonly plans: KeptPlans };
  /** Closes the store and removes the folder. */
  readonly close: () => void;
}

export function testDocuments(text: string = demoText, keyOctets: Uint8Array | null = null): TestDocuments {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-documents-'));
  const file = join(folder, 'demo-passage.json');
  const writeFile = (next: string): void => writeFileSync(file, next);
  writeFile(text);
  let opened = openedStore(folder);
  const nowEpochMs = (): number => picture.nowEpochMs;
  const documentsOf = (): Documents => keepDocuments({ store: opened.store, file, nowEpochMs });
  const keepingOf = (documents: Documents) => ({
    log: keepLog({ store: opened.store, documents, nowEpochMs }),
    plans: keepPlans({ store: opened.store, documents, nowEpochMs }),
  });
  const restarted = (): Documents => {
    opened.close();
    opened = openedStore(folder);
    return documentsOf();
  };
  const documents = documentsOf();
  return {
    documents,
    ...keepingOf(documents),
    forecasts: keepForecasts({ store: opened.store, world: { ...realWorld, nowEpochMs } }),
    messages: keepMessages({ store: opened.store, documents, keyOctets, nowEpochMs }),
    store: opened.store,
    file,
    writeFile,
    restarted,
    restartedKeeping: () => keepingOf(restarted()),
    close: () => {
      opened.close();
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

function openedStore(folder: string): ServerStore {
  const opened = openServerStore(join(folder, 'store'));
  if (!opened.ok) throw new Error(JSON.stringify(opened.problems));
  return opened.value;
}
