/** The program on its demo, on a free port, with a store that goes away with it. */
import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join, resolve } from 'node:path';

export interface Demo {
  /** Ends without a slash. */
  readonly url: string;
  readonly stop: () => Promise<void>;
}

/** Starts it; throws with what it said where it ends at once. Its plan is in the making. */
export async function startDemo(): Promise<Demo> {
  const store = mkdtempSync(join(tmpdir(), 'slatch-screenshots-'));
  const child = spawn(process.execPath, ['--import', 'tsx', 'server/main.ts', '--port', '0', '--store', store], {
    cwd: resolve(import.meta.dirname, '../..'),
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const ended = once(child, 'close');
  const stop = async (): Promise<void> => {
    child.kill('SIGTERM');
    await ended;
    rmSync(store, { recursive: true, force: true });
  };
  const url = await new Promise<string>((settle, fail) => {
    let said = '';
    child.stdout.on('data', (chunk: Buffer) => {
      said += chunk.toString();
      const [, found] = /Slatch: (http:\/\/\S+?)\/?\s/.exec(said) ?? [];
      if (found !== undefined) settle(found);
    });
    child.once('close', () => fail(new Error(`the program ended: ${said}`)));
  });
  return { url, stop };
}
