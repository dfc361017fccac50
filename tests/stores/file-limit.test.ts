/** Files that may not grow any more: what comes nearest to a full disk where nothing can be mounted. */
import { spawnSync } from 'node:child_process';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { checkStore } from '../../server/stores/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { freshFolder, valueOf } from './store-fixture.ts';

/** util-linux; sets the limit, and takes it away again while the process runs. */
const hasLimits = spawnSync('prlimit', ['--version']).status === 0;
if (!hasLimits) console.warn('skipped: there is no prlimit (util-linux)');
/** Largest file [octets]: the database fits, a log of some entries does not. */
const MOST_OCTETS = 600_000;

describe.skipIf(!hasLimits)('a store whose files may not grow', () => {
  it('refuses what does not fit, has all it acknowledged, and goes on once they may', async () => {
    const folder = freshFolder();
    const child = join(import.meta.dirname, 'file-limit-child.ts');
    // The hard limit stays, so that the soft one can be lifted.
    const limited = [`--fsize=${MOST_OCTETS}:unlimited`, process.execPath, '--import', 'tsx', child, folder];
    const ran = spawnSync('prlimit', limited, { cwd: projectFolder, encoding: 'utf8' });
    expect(ran.stderr).toBe('');
    const told = JSON.parse(ran.stdout) as Readonly<Record<string, unknown>> & { readonly acknowledgedCount: number };
    expect(told.acknowledgedCount).toBeGreaterThan(3);
    expect(told).toMatchObject({
      // SQLite calls it an error of the disk.
      refused: ['store.cannot-write'],
      forecast: ['store.disk-full'],
      kept: { logCount: told.acknowledgedCount, gribFiles: [] },
      again: [],
      logCount: told.acknowledgedCount + 1,
    });
    expect(valueOf(await checkStore(folder)).faults).toEqual([]);
  });
});
