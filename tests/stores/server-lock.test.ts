import { spawn, type ChildProcess } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { takeServerLock } from '../../server/stores/index.ts';
import { projectFolder } from '../architecture/source-file.ts';
import { aPassage, codesOf, freshFolder, freshStore, valueOf } from './store-fixture.ts';

/** Another process that tries for the lock, and what it says. */
async function holder(folder: string): Promise<{ child: ChildProcess; says: string }> {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', join(import.meta.dirname, 'lock-holder-child.ts'), folder],
    {
      cwd: projectFolder,
      stdio: ['ignore', 'pipe', 'inherit'],
    },
  );
  const [chunk] = (await once(child.stdout, 'data')) as [Buffer];
  return { child, says: chunk.toString().trim() };
}

describe('takeServerLock', () => {
  it('taken twice: the second is refused until the first gives it back', () => {
    const folder = freshFolder();
    const giveBack = valueOf(takeServerLock(folder));
    expect(codesOf(takeServerLock(folder))).toEqual(['store.server-running']);
    giveBack();
    valueOf(takeServerLock(folder))();
  });

  it('held by another process: refused; when that process is killed: free at once', async () => {
    const folder = freshFolder();
    const { child, says } = await holder(folder);
    expect(says).toBe('taken');
    expect(codesOf(takeServerLock(folder))).toEqual(['store.server-running']);
    child.kill('SIGKILL');
    await once(child, 'close');
    valueOf(takeServerLock(folder))();
  });

  it('held here: another process is refused, but commands read and write beside', async () => {
    const folder = freshFolder();
    const giveBack = valueOf(takeServerLock(folder));
    expect((await holder(folder)).says).toBe('store.server-running');
    expect(valueOf(freshStore(folder).passages.create(aPassage)).number).toBe(1);
    giveBack();
  });

  it('a folder that is not there: refused in plain words', () => {
    expect(codesOf(takeServerLock(join(freshFolder(), 'nowhere')))).toEqual(['store.cannot-write']);
  });
});
