import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { watch } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Line, linesOf } from './lines.ts';

const CHILD = fileURLToPath(new URL('worker-child.ts', import.meta.url));

export interface KillPlan {
  readonly mode: 'write' | 'open' | 'backup' | 'restore';
  readonly folder: string;
  readonly seed: number;
  readonly otherFolder?: string;
  /** What begins the time: the first line that says so, or the first file in the folder whose name begins so. */
  readonly from: { readonly line: string } | { readonly file: string };
  readonly afterMs: number;
}

export interface Killed {
  readonly lines: readonly Line[];
  /** Whether it was still at work. */
  readonly isKilled: boolean;
}

/** Lets a worker work, kills it (SIGKILL), and gives what it had said. */
export async function killOne({ mode, folder, seed, otherFolder = '', from, afterMs }: KillPlan): Promise<Killed> {
  const child = spawn(process.execPath, ['--import', 'tsx', CHILD, mode, folder, String(seed), otherFolder], {
    stdio: ['ignore', 'pipe', 'pipe'],
  });
  let [printed, complaints] = ['', ''];
  let timer: NodeJS.Timeout | undefined;
  const begin = (): void => {
    timer ??= setTimeout(() => child.kill('SIGKILL'), afterMs);
  };
  const watcher =
    'file' in from ? watch(folder, (_event, name) => name?.startsWith(from.file) === true && begin()) : null;
  child.stderr.on('data', (chunk: Buffer) => (complaints += chunk.toString()));
  child.stdout.on('data', (chunk: Buffer) => {
    printed += chunk.toString();
    if ('line' in from && printed.includes(from.line)) begin();
  });
  await once(child, 'close');
  clearTimeout(timer);
  watcher?.close();
  const { exitCode, signalCode } = child;
  if (signalCode !== 'SIGKILL' && exitCode !== 0)
    throw new Error(`the worker failed by itself (${exitCode}): ${complaints}`);
  return { lines: linesOf(printed), isKilled: signalCode === 'SIGKILL' };
}
