/** A program started from nothing, timed until it has ended or said something. */
import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { once } from 'node:events';
import { createInterface } from 'node:readline';
import { resolve } from 'node:path';

export const PROJECT = resolve(import.meta.dirname, '../..');

/** Runs Node until it ends; milliseconds. Throws where the program fails. */
export function wholeRunMs(words: readonly string[]): number {
  const begunMs = performance.now();
  const { status, stderr } = spawnSync(process.execPath, words, { cwd: PROJECT, encoding: 'utf8' });
  if (status !== 0) throw new Error(`${words.join(' ')}: ${stderr}`);
  return performance.now() - begunMs;
}

export interface Started {
  readonly child: ChildProcess;
  /** The line waited for, and when it came [ms]. */
  readonly line: string;
  readonly atMs: number;
  readonly begunMs: number;
}

/** Starts Node and waits for a line that matches. Throws where it ends before. */
export async function startedWith(words: readonly string[], wanted: RegExp): Promise<Started> {
  const begunMs = performance.now();
  const child = spawn(process.execPath, words, { cwd: PROJECT, stdio: ['ignore', 'pipe', 'inherit'] });
  for await (const line of createInterface({ input: child.stdout })) {
    if (!wanted.test(line)) continue;
    child.stdout.resume();
    return { child, line, begunMs, atMs: performance.now() - begunMs };
  }
  throw new Error(`${words.join(' ')} ended before it said ${wanted.source}`);
}

export async function ended(child: ChildProcess): Promise<void> {
  if (child.exitCode !== null) return;
  child.kill('SIGTERM');
  await once(child, 'exit');
}
