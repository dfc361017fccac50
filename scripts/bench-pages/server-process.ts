/** The server as people run it, in a process of its own. */
import { type ChildProcess, spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';
import { createInterface } from 'node:readline';
import { residentMibOf } from '../bench/linux-memory.ts';
import { ask } from './ask.ts';

export interface RunningServer {
  readonly url: string;
  /** Processor time the thread that answers has had so far [ms]; null: this machine does not say. */
  readonly busyMs: () => number | null;
  /** Memory the process and those it has started hold now [MiB]; null: this machine does not say. */
  readonly residentMib: () => number | null;
  readonly stop: () => Promise<void>;
}

const root = resolve(import.meta.dirname, '../..');

/** Starts it on a free port; it is ready when it has printed its address. */
export async function startServer(passagePath: string, storeFolder: string): Promise<RunningServer> {
  const child = spawn(
    process.execPath,
    ['--import', 'tsx', 'server/main.ts', '--port', '0', '--passage', passagePath, '--store', storeFolder],
    { cwd: root, stdio: ['ignore', 'pipe', 'inherit'] },
  );
  const url = await addressOf(child);
  return {
    url,
    busyMs: () => busyMs(child.pid),
    residentMib: () => residentMib(child),
    stop: async () => {
      if (child.exitCode !== null) return;
      child.kill('SIGTERM');
      await once(child, 'exit');
    },
  };
}

async function addressOf(child: ChildProcess): Promise<string> {
  if (child.stdout === null) throw new Error('the server has no output');
  for await (const line of createInterface({ input: child.stdout })) {
    const [, url] = /^Slatch: (http:\/\/\S+)\/$/.exec(line) ?? [];
    if (url === undefined) continue;
    child.stdout.resume();
    return url;
  }
  throw new Error('the server ended before it listened');
}

/** First figure of schedstat: nanoseconds on a processor (Linux, Documentation/scheduler/sched-stats.rst). */
function busyMs(pid: number | undefined): number | null {
  try {
    return Number(readFileSync(`/proc/${pid}/task/${pid}/schedstat`, 'utf8').split(' ')[0]) / 1e6;
  } catch {
    return null;
  }
}

function residentMib({ pid }: ChildProcess): number | null {
  const mib = pid === undefined ? null : residentMibOf(pid);
  return mib === null ? null : Math.round(mib);
}

const LOOK_EVERY_MS = 500;

/** Waits until a plan is there and none in the making; milliseconds it took. Throws where none comes. */
export async function planMade(url: string): Promise<number> {
  const begunMs = performance.now();
  while (await isMaking(url)) await new Promise((settle) => setTimeout(settle, LOOK_EVERY_MS));
  if ((await textOf(url, '/plan/making')).includes('no plan')) throw new Error('no plan came');
  return performance.now() - begunMs;
}

/** Whether a plan is in the making: the line that says so asks for itself again, and so does a page without a plan. */
export const isMaking = async (url: string): Promise<boolean> =>
  (await textOf(url, '/plan/making')).includes('hx-get="/plan/making"') ||
  (await textOf(url, '/plan')).includes('http-equiv="refresh"');

const textOf = async (url: string, path: string): Promise<string> => (await ask(url, path)).body.toString();
