import { setImmediate } from 'node:timers/promises';
import { decodePart } from '../../lib/grib/index.ts';
import { decodeOnThreads } from './decode-on-threads.ts';
import type { DecodedPart, DecodeTask } from './task.ts';

/** Points decoded so far and in all. */
export interface DecodeProgress {
  readonly donePoints: number;
  readonly allPoints: number;
}

export interface DecodeOptions {
  /** Threads at most; 1 or fewer: none beside this one. */
  readonly threadCount: number;
  readonly onProgress?: (progress: DecodeProgress) => void;
  /** Aborted: the threads are ended, and the promise rejects with the signal's reason. */
  readonly signal?: AbortSignal;
}

/** Below this many points threads cost more than they save. */
const LEAST_POINTS_FOR_THREADS = 8_000_000;

/** Decodes every task; the answers stand in the order of the tasks. */
export async function decodeTasks(tasks: readonly DecodeTask[], options: DecodeOptions): Promise<DecodedPart[]> {
  const allPoints = tasks.reduce((sum, { field }) => sum + field.pointCount, 0);
  let donePoints = 0;
  const onDone = (task: DecodeTask): void => {
    donePoints += task.field.pointCount;
    options.onProgress?.({ donePoints, allPoints });
  };
  options.signal?.throwIfAborted();
  const areThreadsWorthIt = options.threadCount > 1 && allPoints >= LEAST_POINTS_FOR_THREADS;
  return areThreadsWorthIt ? decodeOnThreads(tasks, { ...options, onDone }) : decodeHere(tasks, { ...options, onDone });
}

/** Lets others have their turn between two fields, so that progress is shown and a stop is heard. */
async function decodeHere(
  tasks: readonly DecodeTask[],
  options: DecodeOptions & { onDone: (task: DecodeTask) => void },
): Promise<DecodedPart[]> {
  const most = tasks.reduce((sum, { field }) => Math.max(sum, field.pointCount), 0);
  const scratch = new Float64Array(most);
  const decoded: DecodedPart[] = [];
  for (const task of tasks) {
    decoded.push(decodePart(task.bytes, task.field, { part: task.part, scratch }));
    options.onDone(task);
    await setImmediate();
    options.signal?.throwIfAborted();
  }
  return decoded;
}
