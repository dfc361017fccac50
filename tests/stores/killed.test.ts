import Database from 'libsql';
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { openStore } from '../../server/stores/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { aPassage, freshFolder, valueOf } from './store-fixture.ts';

/** Milliseconds of committing before each kill. */
const ALL_AFTER_MS = [5, 12, 25, 40, 60, 80, 110, 140, 180, 250];
const KILL_AFTER_MS = ALL_AFTER_MS.filter((_, index) => IS_LONG_RUN || index % 5 === 1);

/** Starts a child that commits without end, kills it, and gives the last number it printed. */
async function killWhileCommitting(folder: string, afterMs: number): Promise<number> {
  const child = spawn(process.execPath, ['--import', 'tsx', join(import.meta.dirname, 'committing-child.ts'), folder], {
    cwd: projectFolder,
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  let printed = '';
  let timer: NodeJS.Timeout | undefined;
  child.stdout.on('data', (chunk: Buffer) => {
    printed += chunk.toString();
    timer ??= setTimeout(() => child.kill('SIGKILL'), afterMs);
  });
  await once(child, 'close');
  // A last line without its end was cut by the kill.
  return Number(printed.split('\n').at(-2));
}

describe('a store whose process is killed while committing', () => {
  it(`${KILL_AFTER_MS.length} times over: nothing acknowledged is lost and the database is whole`, async () => {
    const folder = freshFolder();
    const first = valueOf(openStore(folder));
    first.passages.create(aPassage);
    first.close();
    let storedCount = 0;

    for (const afterMs of KILL_AFTER_MS) {
      const acknowledged = await killWhileCommitting(folder, afterMs);
      const store = valueOf(openStore(folder));
      const numbers = valueOf(store.log.list(1)).map((entry) => entry.number);
      store.close();
      expect(acknowledged).toBeGreaterThan(storedCount);
      // At most the one commit whose number was not printed any more.
      expect(numbers.length - acknowledged).toBeGreaterThanOrEqual(0);
      expect(numbers.length - acknowledged).toBeLessThanOrEqual(1);
      expect(numbers).toEqual(numbers.map((_, index) => index + 1));
      storedCount = numbers.length;
    }

    const database = new Database(join(folder, 'slatch.db'));
    expect(database.prepare('PRAGMA integrity_check').all()).toMatchObject([{ integrity_check: 'ok' }]);
    database.close();
  }, 120_000);
});
