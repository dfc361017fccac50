import { existsSync } from 'node:fs';
import path from 'node:path';
import { failed, ok, type Problem, type Result } from '../../lib/result/index.ts';
import { withCopy } from './open-reading.ts';
import { databasePath, openStore, type Store } from './open-store.ts';
import type { PassageText } from './passage-files.ts';
import { noStore } from './store-problems.ts';

export interface StoredPassageText {
  readonly passage: PassageText;
  /** Its log as JSON Lines; null: nothing was written down. */
  readonly log: Uint8Array | null;
}

/**
 * A passage of a store, by its name, with its log; also on a disk that can only be read.
 *
 * @returns `store.none`, `store.no-such-name`, or a failure of the store
 */
export function storedPassage(folder: string, name: string): Result<StoredPassageText> {
  if (!existsSync(databasePath(folder))) return failed(noStore(folder));
  const opened = openStore(folder);
  if (opened.ok) return passageIn(opened.value, { name, storeFolder: folder });
  if (opened.problems[0].code !== 'store.cannot-write') return opened;
  return withCopy(databasePath(folder), (copy) => {
    const again = openStore(copy);
    return again.ok ? passageIn(again.value, { name, storeFolder: folder }) : opened;
  });
}

function passageIn(store: Store, of: { name: string; storeFolder: string }): Result<StoredPassageText> {
  try {
    return found(store, of);
  } finally {
    store.close();
  }
}

function found(
  { documents, log, passages }: Store,
  { name, storeFolder }: { name: string; storeFolder: string },
): Result<StoredPassageText> {
  const document = documents.named(name);
  if (!document.ok) return document;
  if (document.value === null) {
    const list = passages.list();
    const names = list.ok ? list.value.map((one) => one.name) : [];
    return list.ok ? failed(noSuchName(name, names)) : list;
  }
  const { json, number, file, folder } = document.value;
  const entries = log.list(number);
  if (!entries.ok) return entries;
  const lines = entries.value.map((entry) => `${JSON.stringify(JSON.parse(entry.json))}\n`);
  return ok({
    passage: { text: json, where: `store:${name}`, folder, fileName: path.basename(file), storeFolder },
    log: lines.length === 0 ? null : Buffer.from(lines.join('')),
  });
}

const noSuchName = (name: string, names: readonly string[]): Problem => ({
  code: 'store.no-such-name',
  where: `store:${name}`,
  what: 'The store has no passage of this name.',
  expected: names.length === 0 ? 'a store with passages' : `one of ${names.map((one) => `"${one}"`).join(', ')}`,
  remedy: 'Write the name as the page of the passages has it.',
});
