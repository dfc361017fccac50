/** A program that comes after one that was killed; that two at once are refused is asked in tests/pages/main.test.ts. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, describe, expect, it } from 'vitest';
import { projectFolder } from '../architecture/source-file.ts';
import { checkStore } from '../../server/stores/index.ts';
import { removeFolders, writePassage } from '../end-to-end/small-passage.ts';
import { IS_LONG_RUN } from '../long-run.ts';
import { valueOf } from './store-fixture.ts';

const running: ChildProcess[] = [];
afterAll(() => {
  for (const child of running) child.kill('SIGKILL');
  removeFolders();
});

interface Started {
  readonly child: ChildProcess;
  readonly said: () => string;
  readonly closed: Promise<unknown>;
}

/** The program itself in the long run, else what it does with its store: all of it takes seconds. */
function started(store: string, passage: string): Started {
  const program = IS_LONG_RUN
    ? ['server/main.ts', '--port', '0', '--store', store, '--passage', passage]
    : ['tests/stores/server-store-child.ts', store];
  const child = spawn(process.execPath, ['--import', 'tsx', ...program], { cwd: projectFolder });
  running.push(child);
  let said = '';
  for (const stream of [child.stdout, child.stderr]) stream.on('data', (chunk: Buffer) => (said += chunk.toString()));
  return { child, said: () => said, closed: once(child, 'close') };
}

const addressOf = async ({ said }: Started): Promise<string> => {
  await expect.poll(said, { timeout: 60_000 }).toMatch(/^Slatch: http:\/\/\S+\//);
  return /http:\/\/\S+\//.exec(said())?.[0] ?? '';
};

describe('a server that is killed', () => {
  it('leaves its store free: the next one starts at once, and says of itself who it is', async () => {
    const passage = writePassage({ passage: { forecasts: [] } });
    const store = join(passage, '..', 'store');
    const noteOf = (): string => readFileSync(join(store, 'server.txt'), 'utf8');
    const first = started(store, passage);
    const address = await addressOf(first);
    expect(noteOf()).toBe(`${address}, process ${first.child.pid}`);
    first.child.kill('SIGKILL');
    await first.closed;
    // Nothing was tidied up, and nothing has to be.
    expect(noteOf()).toBe(`${address}, process ${first.child.pid}`);
    expect(valueOf(await checkStore(store))).toMatchObject({
      faults: [],
      server: { isRunning: false },
      notes: [{ code: 'store.server-killed' }],
    });
    const second = started(store, passage);
    const another = await addressOf(second);
    expect(noteOf()).toBe(`${another}, process ${second.child.pid}`);
    expect(valueOf(await checkStore(store)).server.isRunning).toBe(true);
  }, 180_000);
});
