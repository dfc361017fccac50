/**
 * Works on a store without end, until it is killed, and says on standard output what was acknowledged.
 *
 *     worker-child.ts write|open|backup|restore FOLDER SEED [OTHER-FOLDER]
 */
import { mkdirSync, writeSync } from 'node:fs';
import { join } from 'node:path';
import { backUpStore, openStore, restoreStore, type Store } from '../../server/stores/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { valueOf } from './contents.ts';
import type { Line } from './lines.ts';
import { writeOnce, type Worker } from './work.ts';

const [mode = '', folder = '', seed = '1', other = ''] = process.argv.slice(2);

/** At once, so that nothing is said that is not so, and nothing acknowledged goes unsaid but the last. */
const say = (line: Line): void => void writeSync(1, `${JSON.stringify(line)}\n`);
const draw = uniformDraws(Number(seed));

function opened(): Store {
  say({ say: 'opening' });
  const store = valueOf(openStore(folder));
  say({ say: 'open' });
  return store;
}

/** Backups of what goes on being written. */
async function backUpOften(worker: Worker): Promise<void> {
  mkdirSync(other, { recursive: true });
  for (let count = 1; ; count++) {
    /* oxlint-disable no-await-in-loop -- one after the other */
    for (let write = 0; write < 3; write++) await writeOnce(worker);
    say({ say: 'begins', what: 'backup' });
    const target = { file: join(other, `${process.pid}-${count}.tar`), isReplacing: false };
    const made = valueOf(await backUpStore({ folder, target, program: '0', atEpochMs: count }));
    say({ say: 'made', path: made.file });
    /* oxlint-enable no-await-in-loop */
  }
}

/** The backup FOLDER, over and over, each time in the place of the last. */
async function restoreOften(): Promise<void> {
  for (let count = 1; ; count++) {
    say({ say: 'begins', what: 'restore' });
    const asideFolder = `${other}-aside-${process.pid}-${count}`;
    // oxlint-disable-next-line no-await-in-loop
    valueOf(await restoreStore({ file: folder, folder: other, asideFolder }));
    say({ say: 'made', path: other });
  }
}

if (mode === 'restore') await restoreOften();
const worker = { store: opened(), draw, say };
if (mode === 'open') process.exit(0);
if (mode === 'backup') await backUpOften(worker);
// oxlint-disable-next-line no-await-in-loop
for (;;) await writeOnce(worker);
