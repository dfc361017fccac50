/** A store of its own in a temporary folder, with a passage file beside it. */
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';
import { type Documents, keepDocuments } from '../../server/documents/index.ts';
import { openServerStore, type ServerStore } from '../../server/open-server-store.ts';
import type { Store } from '../../server/stores/index.ts';
import { picture } from './fixture-plan.ts';

export const demoFile = resolve(import.meta.dirname, '../../sample-forecasts/demo-passage.json');
export const demoText = readFileSync(demoFile, 'utf8');

export interface TestDocuments {
  readonly documents: Documents;
  readonly store: Store;
  /** The passage file. */
  readonly file: string;
  readonly writeFile: (text: string) => void;
  /** Closes the store and opens it again, as a server that is started anew. */
  readonly restarted: () => Documents;
  /** Closes the store and removes the folder. */
  readonly close: () => void;
}

export function testDocuments(text: string = demoText): TestDocuments {
  const folder = mkdtempSync(join(tmpdir(), 'slatch-documents-'));
  const file = join(folder, 'demo-passage.json');
  const writeFile = (next: string): void => writeFileSync(file, next);
  writeFile(text);
  let opened = openedStore(folder);
  const nowEpochMs = (): number => picture.nowEpochMs;
  const documentsOf = (): Documents => keepDocuments({ store: opened.store, file, nowEpochMs });
  return {
    documents: documentsOf(),
    store: opened.store,
    file,
    writeFile,
    restarted: () => {
      opened.close();
      opened = openedStore(folder);
      return documentsOf();
    },
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
