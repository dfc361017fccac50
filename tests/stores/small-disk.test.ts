/** A disk that is full, and one that can only be read: a small file system of memory, in a name space of its own. */
import { spawnSync } from 'node:child_process';
import { mkdirSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectFolder } from '../architecture/source-file.ts';
import { freshFolder } from './store-fixture.ts';

const IN_OWN_SPACE = ['-rm', 'sh', '-c'];
const MOUNT = 'mount -t tmpfs -o size=6m,mode=0700 tmpfs "$1"';

/** Whether this machine lets us mount anything; containers often do not. */
function canMount(): boolean {
  const probe = spawnSync('unshare', [...IN_OWN_SPACE, MOUNT, 'sh', '/mnt'], { stdio: 'ignore' });
  if (probe.status !== 0)
    console.warn('skipped: no small file system can be mounted here (unshare -rm, mount -t tmpfs)');
  return probe.status === 0;
}

interface Told {
  readonly full: Readonly<Record<string, string>>;
  readonly refused: string;
  readonly acknowledgedCount: number;
  readonly whileFull: Readonly<Record<string, unknown>>;
  readonly roomAgain: Readonly<Record<string, string>>;
  readonly readOnly: Readonly<Record<string, string>>;
  /** null: it could not even be opened for reading. */
  readonly reads: number | null;
  readonly rescuedCount: number;
}

function runOnSmallDisk(): Told {
  const folder = freshFolder();
  const [disk, elsewhere] = [join(folder, 'disk'), join(folder, 'elsewhere')];
  for (const one of [disk, elsewhere]) mkdirSync(one);
  const child = join(import.meta.dirname, 'small-disk-child.ts');
  const script = `${MOUNT} && exec "$2" --import tsx "$3" "$1" "$4"`;
  const ran = spawnSync('unshare', [...IN_OWN_SPACE, script, 'sh', disk, process.execPath, child, elsewhere], {
    cwd: projectFolder,
    encoding: 'utf8',
  });
  expect(ran.stderr).toBe('');
  return JSON.parse(ran.stdout) as Told;
}

const FULL =
  /^store\.disk-full: The disk is (?:full; nothing was written\. \([A-Z_]+\) .+ are free on it\.|too full: .+ are needed, .+ are free on it; nothing was written\.)/;
const READ_ONLY = /^store\.cannot-write: The store can only be read here; nothing was written\./;

describe.skipIf(!canMount())('a store on a small disk', () => {
  it('full: every write is refused with what is free, nothing acknowledged is lost, and with room again it goes on; read only: said, read, and rescued', () => {
    const { full, refused, acknowledgedCount, whileFull, roomAgain, readOnly, reads, rescuedCount } = runOnSmallDisk();
    for (const [what, said] of Object.entries(full)) expect(said, what).toMatch(FULL);
    expect(refused).toMatch(FULL);
    // One more was written after there was room again.
    const logCount = acknowledgedCount - 1;
    expect(whileFull).toEqual({
      logCount,
      version: 1,
      forecastCount: 1,
      gribFileCount: 1,
      partCount: 0,
      oldVersion: 3,
      oldCopies: [],
      isBackupThere: false,
    });
    expect(roomAgain).toEqual({ save: 'ok', log: 'ok', forecast: 'ok', migration: 'ok' });
    for (const what of ['save', 'server', 'lock']) expect(readOnly[what], what).toMatch(READ_ONLY);
    for (const what of ['check', 'passage', 'backup', 'restore']) expect(readOnly[what], what).toBe('ok');
    expect([null, acknowledgedCount]).toContain(reads);
    expect(rescuedCount).toBe(acknowledgedCount);
  });
});
