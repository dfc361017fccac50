import { setImmediate } from 'node:timers/promises';
import { decodeWanted, type WantedField } from '../../lib/forecast/index.ts';
import type { PackingMethod } from '../../lib/grib/index.ts';
import { decodeOnThreads } from './decode-on-threads.ts';
import type { DecodedPart } from './task.ts';

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

/** Effort of a point, in units of the quickest packings (`npm run bench:grib`). */
const EFFORT_WEIGHT: Readonly<Partial<Record<PackingMethod, number>>> = { 'jpeg-2000': 20, png: 4 };
/** Below this effort, some two seconds, starting the threads costs more than they save. */
const LEAST_EFFORT_FOR_THREADS = 200_000_000;

const effortOf = ({ field }: WantedField): number => field.pointCount * (EFFORT_WEIGHT[field.packing.method] ?? 1);

/** Decodes every task; the answers stand in the order of the tasks. */
export async function decodeTasks(tasks: readonly WantedField[], options: DecodeOptions): Promise<DecodedPart[]> {
  const allPoints = tasks.reduce((sum, { field }) => sum + field.pointCount, 0);
  let donePoints = 0;
  const onDone = (task: WantedField): void => {
    donePoints += task.field.pointCount;
    options.onProgress?.({ donePoints, allPoints });
  };
  options.signal?.throwIfAborted();
  const effort = tasks.reduce((sum, task) => sum + effortOf(task), 0);
  const threadCount = Math.min(options.threadCount, threadsInMemory(tasks));
  const areThreadsWorthIt = threadCount > 1 && effort >= LEAST_EFFORT_FOR_THREADS;
  return areThreadsWorthIt
    ? decodeOnThreads(tasks, { ...options, threadCount, onDone })
    : decodeHere(tasks, { ...options, onDone });
}

/** Points being decoded at the same time: a thread takes some 20 octets for each of its field. */
const MOST_POINTS_AT_ONCE = 20_000_000;

function threadsInMemory(tasks: readonly WantedField[]): number {
  const largest = tasks.reduce((most, { field }) => Math.max(most, field.pointCount), 1);
  return Math.max(1, Math.floor(MOST_POINTS_AT_ONCE / largest));
}

/** Others have their turn after so long, so that progress is shown and a stop is heard [ms]. */
const TURN_MS = 20;

async function decodeHere(
  tasks: readonly WantedField[],
  options: DecodeOptions & { onDone: (task: WantedField) => void },
): Promise<DecodedPart[]> {
  const most = tasks.reduce((sum, { field }) => Math.max(sum, field.pointCount), 0);
  const scratch = new Float64Array(most);
  const decoded: DecodedPart[] = [];
  let turnBeganMs = performance.now();
  for (const task of tasks) {
    decoded.push(decodeWanted(task, scratch));
    options.onDone(task);
    options.signal?.throwIfAborted();
    if (performance.now() - turnBeganMs < TURN_MS) continue;
    await setImmediate();
    options.signal?.throwIfAborted();
    turnBeganMs = performance.now();
  }
  return decoded;
}
