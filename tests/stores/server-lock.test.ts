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
    const { release } = valueOf(takeServerLock(folder));
    expect(codesOf(takeServerLock(folder))).toEqual(['store.server-running']);
    release();
    valueOf(takeServerLock(folder)).release();
  });

  it('held by another process: refused; when that process is killed: free at once', async () => {
    const folder = freshFolder();
    const { child, says } = await holder(folder);
    expect(says).toBe('taken');
    expect(codesOf(takeServerLock(folder))).toEqual(['store.server-running']);
    child.kill('SIGKILL');
    await once(child, 'close');
    valueOf(takeServerLock(folder)).release();
  });

  it('refused: says which server has it, by what that one left; nothing of an earlier one', () => {
    const folder = freshFolder();
    const whatOf = (): string => {
      const refused = takeServerLock(folder);
      return refused.ok ? '' : refused.problems[0].what;
    };
    const first = valueOf(takeServerLock(folder));
    expect(whatOf()).toBe(`Another Slatch server (process ${process.pid}) is already using this store.`);
    first.note('http://127.0.0.1:4137/, process 7\n\u001B[31m');
    expect(whatOf()).toBe(
      'Another Slatch server (http://127.0.0.1:4137/, process 7 [31m) is already using this store.',
    );
    first.release();
    const second = valueOf(takeServerLock(folder));
    expect(whatOf()).not.toContain('4137');
    second.release();
  });

  it('held here: another process is refused, but commands read and write beside', async () => {
    const folder = freshFolder();
    const { release } = valueOf(takeServerLock(folder));
    expect((await holder(folder)).says).toBe('store.server-running');
    expect(valueOf(freshStore(folder).passages.create(aPassage)).number).toBe(1);
    release();
  });

  it('a folder that is not there: refused in plain words', () => {
    expect(codesOf(takeServerLock(join(freshFolder(), 'nowhere')))).toEqual(['store.cannot-write']);
  });
});
