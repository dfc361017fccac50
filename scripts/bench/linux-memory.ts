import { readdirSync, readFileSync } from 'node:fs';
import { processStatus } from '../process-status.ts';

/**
 * What a process and those it has started hold [MiB], as Linux tells it (proc(5): VmRSS of /proc/PID/status, and
 * /proc/PID/task/TID/children). Pages they share, the program itself above all, count once for each of them.
 *
 * @returns null: another system, or it has ended
 */
export function residentMibOf(pid: number): number | null {
  const own = ownResidentMib(pid);
  if (own === null) return null;
  // One that ended since it was listed holds nothing.
  return childrenOf(pid).reduce((sum, child) => sum + (residentMibOf(child) ?? 0), own);
}

function ownResidentMib(pid: number): number | null {
  const octets = processStatus('VmRSS', pid);
  return Number.isNaN(octets) ? null : octets / 2 ** 20;
}

const childrenOf = (pid: number): readonly number[] =>
  threadsOf(pid).flatMap((thread) =>
    textOf(`/proc/${pid}/task/${thread}/children`)
      .split(' ')
      .filter((text) => text !== '')
      .map(Number),
  );

function threadsOf(pid: number): readonly string[] {
  try {
    return readdirSync(`/proc/${pid}/task`);
  } catch {
    return [];
  }
}

function textOf(path: string): string {
  try {
    return readFileSync(path, 'utf8');
  } catch {
    return '';
  }
}

export interface PeakWatch {
  /** The most seen so far [MiB]; NaN where nothing was seen. */
  readonly stop: () => number;
}

const LOOK_EVERY_MS = 100;

/** Looks again and again at what a process and its children hold together. */
export function watchPeak(pid: number): PeakWatch {
  let mostMib = Number.NaN;
  const look = (): void => {
    const heldMib = residentMibOf(pid);
    if (heldMib !== null) mostMib = Number.isNaN(mostMib) ? heldMib : Math.max(mostMib, heldMib);
  };
  look();
  const timer = setInterval(look, LOOK_EVERY_MS);
  return {
    stop: () => {
      clearInterval(timer);
      look();
      return mostMib;
    },
  };
}
