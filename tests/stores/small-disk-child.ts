/**
 * What a store does on a disk that fills up, and on one that can only be read from then on; prints it as one line of JSON.
 *
 *     small-disk-child.ts DISK ELSEWHERE       DISK is a small file system of this process's own
 */
import { execFileSync } from 'node:child_process';
import { closeSync, existsSync, mkdirSync, openSync, readdirSync, rmSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { makeOldStore } from '../../scripts/kill-store/old-stores.ts';
import type { Result } from '../../lib/result/index.ts';
import { openServerStore } from '../../server/open-server-store.ts';
import { versionOnDisk } from '../../server/stores/disk-version.ts';
import {
  backUpStore,
  checkStore,
  openStore,
  restoreStore,
  type Store,
  takeServerLock,
} from '../../server/stores/index.ts';
import { storedPassage } from '../../server/stores/stored-passage.ts';
import { valueOf } from '../../scripts/kill-store/contents.ts';

const [disk = '', elsewhere = ''] = process.argv.slice(2);
const folder = join(disk, 'store');
const ballast = join(disk, 'ballast');

/** `ok`, or code and sentence of each problem. */
const saidOf = (result: Result<unknown>): string =>
  result.ok ? 'ok' : result.problems.map(({ code, what }) => `${code}: ${what}`).join(' ');

/** Takes every octet there is. */
function fill(): void {
  const file = openSync(ballast, 'w');
  for (const size of [65_536, 4096, 512])
    try {
      for (;;) writeSync(file, Buffer.alloc(size));
    } catch {
      // Full for this size.
    }
  closeSync(file);
}

const partsIn = (...folders: readonly string[]): number =>
  folders.filter((one) => existsSync(one)).flatMap((one) => readdirSync(one).filter((name) => name.includes('.part')))
    .length;

const store = valueOf(openStore(folder));
const text = { name: 'Bay', json: '{"slatch":1}', atEpochMs: 1 };
const first = valueOf(store.documents.takeOver({ ...text, file: '/boat/bay.json', folder: '/boat', inPlaceOf: null }));
const append = (octets: number, to: Store = store): Result<unknown> =>
  to.log.append({
    passageNumber: 1,
    kind: 'note',
    atEpochMs: 1,
    json: JSON.stringify({ text: 'x'.repeat(octets) }),
    writtenAtEpochMs: 1,
  });
const forecast = (octets: number, mark: number) => ({
  fileName: 'wind.grib2',
  content: [new Uint8Array(octets).fill(mark)],
  mostOctets: 10_000_000,
  atEpochMs: 1,
});
valueOf(append(10));
valueOf(await store.forecasts.add(forecast(1000, 1)));
const backup = { folder, program: '0', atEpochMs: 1 };
const old = join(disk, 'old');
makeOldStore(old, 3, 300);

fill();
const full: Record<string, string> = {
  save: saidOf(store.documents.save(first, { ...text, json: JSON.stringify({ long: 'x'.repeat(300_000) }) })),
  log: saidOf(append(300_000)),
  forecast: saidOf(await store.forecasts.add(forecast(500_000, 2))),
  backup: saidOf(await backUpStore({ ...backup, target: { file: join(disk, 'b.tar'), isReplacing: false } })),
  migration: saidOf(openStore(old)),
};
// Small entries until one is refused: each that was acknowledged must be there.
let acknowledgedCount = 1;
let refused = 'none';
for (let count = 0; count < 500 && refused === 'none'; count++) {
  const appended = append(3000);
  if (appended.ok) acknowledgedCount += 1;
  else refused = saidOf(appended);
}
const whileFull = {
  logCount: valueOf(store.log.list(1)).length,
  version: valueOf(store.documents.shown('/boat/bay.json'))?.version,
  forecastCount: valueOf(store.forecasts.list()).length,
  gribFileCount: readdirSync(join(folder, 'grib')).length,
  partCount: partsIn(disk, folder, join(folder, 'grib'), old),
  oldVersion: versionOnDisk(join(old, 'slatch.db')),
  oldCopies: readdirSync(old).filter((name) => name.includes('before')),
  isBackupThere: existsSync(join(disk, 'b.tar')),
};

rmSync(ballast);
const roomAgain = {
  save: saidOf(store.documents.save(first, { ...text, json: '{"slatch":1,"name":"later"}' })),
  log: saidOf(append(100_000)),
  forecast: saidOf(await store.forecasts.add(forecast(500_000, 2))),
  migration: saidOf(openStore(old)),
};
acknowledgedCount += 1;

store.close();
// The same disk once more, where it can only be read.
const seen = join(elsewhere, 'seen');
mkdirSync(seen);
execFileSync('mount', ['--bind', disk, seen]);
execFileSync('mount', ['-o', 'remount,bind,ro', seen]);
const seenFolder = join(seen, 'store');
// Where SQLite finds its own files beside the database it can be opened for reading; then writing is refused.
const opened = openStore(seenFolder);
const reads = opened.ok ? valueOf(opened.value.log.list(1)).length : null;
const readOnly = {
  save: saidOf(opened.ok ? append(10, opened.value) : opened),
  server: saidOf(openServerStore(seenFolder)),
  lock: saidOf(takeServerLock(seenFolder)),
  check: saidOf(await checkStore(seenFolder)),
  passage: saidOf(storedPassage(seenFolder, 'Bay')),
  backup: saidOf(
    await backUpStore({
      ...backup,
      folder: seenFolder,
      target: { file: join(elsewhere, 'rescue.tar'), isReplacing: false },
    }),
  ),
  restore: saidOf(
    await restoreStore({ file: join(elsewhere, 'rescue.tar'), folder: join(elsewhere, 'rescued'), asideFolder: null }),
  ),
};
const rescued = valueOf(openStore(join(elsewhere, 'rescued')));
console.log(
  JSON.stringify({
    full,
    refused,
    acknowledgedCount,
    whileFull,
    roomAgain,
    readOnly,
    reads,
    rescuedCount: valueOf(rescued.log.list(1)).length,
  }),
);
