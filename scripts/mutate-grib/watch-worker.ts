/** The side that watches a worker process: ends it when an input hangs, starts it again after it died. */
import { type ChildProcess, fork } from 'node:child_process';
import { existsSync, readFileSync, rmSync } from 'node:fs';
import type { MutantRange } from './run-mutants.ts';
import { addTallies, EMPTY_TALLY, type Failure, type Tally } from '../mutants/tally.ts';
import { WORKER_WORD, type WorkerTask, wordsOfTask } from './worker.ts';

/** Processor time without progress after which an input hangs, well above what it may take; and wall time, where nothing runs. */
const MOST_STANDSTILL_MS = 15_000;
const MOST_SILENCE_MS = 300_000;
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
    const index = existsSync(task.progressPath) ? Number(readFileSync(task.progressPath, 'utf8')) : null;
    if (index === null || range.skip.includes(index)) throw new Error(`the worker cannot start: ${end}`);
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
      else if (watch.isStuck()) resolve(`hung for more than ${MOST_STANDSTILL_MS / 1000} s of processor time`);
      else resolve(`the process ended (${signal ?? `code ${code}`}): ${firstLine(complaint)}`);
    });
  });
}

const firstLine = (text: string): string => text.trim().split('\n')[0] ?? '';

function watchStandstill(child: ChildProcess, progressPath: string): { timer: NodeJS.Timeout; isStuck: () => boolean } {
  let [seen, sinceMs, sinceUsedMs, stuck] = ['', performance.now(), 0, false];
  const timer = setInterval(() => {
    const now = existsSync(progressPath) ? readFileSync(progressPath, 'utf8') : '';
    const usedMs = processorMs(child.pid);
    if (now !== seen) [seen, sinceMs, sinceUsedMs] = [now, performance.now(), usedMs ?? 0];
    const silentMs = performance.now() - sinceMs;
    const standstillMs = usedMs === null ? silentMs : usedMs - sinceUsedMs;
    if (standstillMs < MOST_STANDSTILL_MS && silentMs < MOST_SILENCE_MS) return;
    stuck = true;
    child.kill('SIGKILL');
  }, LOOK_EVERY_MS);
  return { timer, isStuck: () => stuck };
}

/** Hundredths of a second, in which Linux tells processor time (proc(5): USER_HZ). */
const MS_OF_TICK = 10;

/** Processor time a process has used, by user and system; null where the system does not tell. */
function processorMs(pid: number | undefined): number | null {
  try {
    const text = readFileSync(`/proc/${pid}/stat`, 'utf8');
    // Behind the name of the program, which may hold anything: field 3 and those after it.
    const fields = text
      .slice(text.lastIndexOf(')') + 2)
      .split(' ')
      .map(Number);
    return ((fields[11] ?? 0) + (fields[12] ?? 0)) * MS_OF_TICK;
  } catch {
    return null;
  }
}
