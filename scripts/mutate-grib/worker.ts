/** The side of a worker process: tries a range in short stretches and writes down how far it is. */
import { appendFileSync, openSync, writeSync } from 'node:fs';
import { type MutantRange, runMutants } from './run-mutants.ts';
import { readSamples } from './samples.ts';

/** Files the watcher reads, and what to try. */
export interface WorkerTask {
  readonly folders: readonly string[];
  readonly range: MutantRange;
  /** Holds the index being tried, ten digits. */
  readonly progressPath: string;
  /** Grows by a line of JSON, a `WorkerNote`, after each stretch. */
  readonly notesPath: string;
}

/** First word after the script's name in a worker process. */
export const WORKER_WORD = '--worker';

/** Stands in the place of a seed. */
const SWEEP_WORD = 'sweep';

/** The task as words of a command line; `taskOfWords` is the way back. */
export function wordsOfTask({ folders, range, progressPath, notesPath }: WorkerTask): string[] {
  const numbers = [range.seed ?? SWEEP_WORD, range.fromIndex, range.toIndex, range.stepCount].map(String);
  return [progressPath, notesPath, ...numbers, range.skip.join(','), ...folders];
}

export function taskOfWords(words: readonly string[]): WorkerTask {
  const [progressPath = '', notesPath = '', seed, fromIndex, toIndex, stepCount, skipped = '', ...folders] = words;
  const range = {
    seed: seed === SWEEP_WORD ? null : Number(seed),
    fromIndex: Number(fromIndex),
    toIndex: Number(toIndex),
    stepCount: Number(stepCount),
    skip: skipped === '' ? [] : skipped.split(',').map(Number),
  };
  return { folders, range, progressPath, notesPath };
}

/** Inputs between two notes. */
const STRETCH_COUNT = 200;
const PROGRESS_DIGITS = 10;

export function work({ folders, range, progressPath, notesPath }: WorkerTask): void {
  const samples = readSamples(folders);
  const progress = openSync(progressPath, 'w');
  const said = (index: number): void => {
    writeSync(progress, String(index).padStart(PROGRESS_DIGITS), 0);
  };
  const stretch = STRETCH_COUNT * range.stepCount;
  for (let fromIndex = range.fromIndex; fromIndex < range.toIndex; fromIndex += stretch) {
    const toIndex = Math.min(range.toIndex, fromIndex + stretch);
    const tally = runMutants(samples, { ...range, fromIndex, toIndex }, said);
    appendFileSync(notesPath, `${JSON.stringify({ tally, nextIndex: fromIndex + stretch })}\n`);
  }
}
