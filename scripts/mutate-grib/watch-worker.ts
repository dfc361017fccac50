/** The side that watches a worker process: ends it when an input hangs, starts it again after it died. */
import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import type { MutantRange } from './run-mutants.ts';
import { addTallies, EMPTY_TALLY, type Failure, type Tally } from './tally.ts';
import { WORKER_WORD, type WorkerTask, wordsOfTask } from './worker.ts';

/** Wall time without progress after which an input hangs; well above what it may take, for busy machines. */
const MOST_STANDSTILL_MS = 15_000;
const LOOK_EVERY_MS = 500;
/** Heap of a worker [MiB]; array buffers lie outside it and are measured. */
const HEAP_MIB = 512;

/** A line of the notes: what a stretch came to, and where the next begins. */
interface WorkerNote {
  readonly tally: Tally;
  readonly nextIndex: number;
}

/**
 * Tries a range in a process of its own, `script` with the words of the task. An input that hangs or kills the
 * process becomes a failure, and the others of its stretch are tried again without it.
 */
export async function watchWorker(script: string, task: WorkerTask): Promise<Tally> {
  const lethal: Failure[] = [];
  let done = EMPTY_TALLY;
  let range: MutantRange = task.range;
  for (;;) {
    rmSync(task.notesPath, { force: true });
    const end = await runOnce(script, { ...task, range });
    const notes = readNotes(task.notesPath);
    done = notes.map(({ tally }) => tally).reduce(addTallies, done);
    if (end === 'finished') return { ...done, failures: [...done.failures, ...lethal] };
    const index = Number(readFileSync(task.progressPath, 'utf8'));
    if (range.skip.includes(index)) throw new Error(`the worker cannot start: ${end}`);
    lethal.push({ index, story: 'made again from its index', fault: end });
    range = { ...range, fromIndex: notes.at(-1)?.nextIndex ?? range.fromIndex, skip: [...range.skip, index] };
  }
}

function readNotes(path: string): WorkerNote[] {
  if (!existsSync(path)) return [];
  const lines = readFileSync(path, 'utf8').split('\n').slice(0, -1);
  return lines.map((line) => {
    const note: unknown = JSON.parse(line);
    if (!isNote(note)) throw new Error(`no note of a worker: ${line}`);
    return note;
  });
}

const isNote = (value: unknown): value is WorkerNote =>
  typeof value === 'object' && value !== null && 'tally' in value && 'nextIndex' in value;

/** `finished`, or how the process ended instead. */
function runOnce(script: string, task: WorkerTask): Promise<string> {
  const execArgv = [...process.execArgv, '--expose-gc', `--max-old-space-size=${HEAP_MIB}`];
  const child = fork(script, [WORKER_WORD, ...wordsOfTask(task)], {
    execArgv,
    stdio: ['ignore', 'ignore', 'pipe', 'ipc'],
  });
  let complaint = '';
  child.stderr?.on('data', (text: Buffer) => {
    complaint = (complaint + text.toString()).slice(-2000);
  });
  const watch = watchStandstill(child, task.progressPath);
  return new Promise((resolve) => {
    child.on('exit', (code, signal) => {
      clearInterval(watch.timer);
      if (code === 0) resolve('finished');
      else if (watch.isStuck()) resolve(`hung for more than ${MOST_STANDSTILL_MS / 1000} s`);
      else resolve(`the process ended (${signal ?? `code ${code}`}): ${firstLine(complaint)}`);
    });
  });
}

const firstLine = (text: string): string => text.trim().split('\n')[0] ?? '';

function watchStandstill(child: ChildProcess, progressPath: string): { timer: NodeJS.Timeout; isStuck: () => boolean } {
  let [seen, sinceMs, stuck] = ['', performance.now(), false];
  const timer = setInterval(() => {
    const now = existsSync(progressPath) ? readFileSync(progressPath, 'utf8') : '';
    if (now !== seen) [seen, sinceMs] = [now, performance.now()];
    if (performance.now() - sinceMs < MOST_STANDSTILL_MS) return;
    stuck = true;
    child.kill('SIGKILL');
  }, LOOK_EVERY_MS);
  return { timer, isStuck: () => stuck };
}
