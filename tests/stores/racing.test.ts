import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { projectFolder } from '../architecture/source-file.ts';
import { freshFolder, freshStore, valueOf } from './store-fixture.ts';

/** A process that will open the store when told to; `finish` tells it and gives the last line it prints. */
async function racer(folder: string): Promise<{ finish: () => Promise<string> }> {
  const child = spawn(process.execPath, ['--import', 'tsx', join(import.meta.dirname, 'racing-child.ts'), folder], {
    cwd: projectFolder,
    stdio: ['pipe', 'pipe', 'inherit'],
  });
  let out = '';
  child.stdout.on('data', (chunk: Buffer) => (out += chunk.toString()));
  await once(child.stdout, 'data');
  return {
    finish: async () => {
      child.stdin.write('go\n');
      await once(child, 'close');
      return out.trim().split('\n').at(-1) ?? '';
    },
  };
}

describe('four processes that open a store at once', () => {
  it('in an empty folder: one passage, four log entries, each with a number of its own', async () => {
    const folder = freshFolder();
    const racers = await Promise.all([1, 2, 3, 4].map(() => racer(folder)));
    const numbers = await Promise.all(racers.map(({ finish }) => finish()));
    expect(numbers.toSorted()).toEqual(['1', '2', '3', '4']);
    const store = freshStore(folder);
    expect(valueOf(store.passages.list())).toHaveLength(1);
    expect(valueOf(store.log.list(1))).toHaveLength(4);
  });
});
