/** The side of a worker process: tries a range in short stretches and writes down how far it is. */
import { appendFileSync, openSync, writeSync } from 'node:fs';
import type { WorkerTask } from '../mutate-grib/worker.ts';
import type { TextFormat } from './format.ts';
import { tryTexts } from './try-text.ts';

/** Inputs between two notes. */
const STRETCH_COUNT = 500;
const PROGRESS_DIGITS = 10;

/** `makeFormat`: it takes seconds for some, and the watcher hears of the first input before. */
export function workOnTexts(makeFormat: () => TextFormat, { range, progressPath, notesPath }: WorkerTask): void {
  const { seed } = range;
  if (seed === null) throw new Error('texts are drawn from a seed');
  const progress = openSync(progressPath, 'w');
  const said = (index: number): void => {
    writeSync(progress, String(index).padStart(PROGRESS_DIGITS), 0);
  };
  said(range.fromIndex);
  const format = makeFormat();
  const stretch = STRETCH_COUNT * range.stepCount;
  for (let fromIndex = range.fromIndex; fromIndex < range.toIndex; fromIndex += stretch) {
    const toIndex = Math.min(range.toIndex, fromIndex + stretch);
    const tally = tryTexts(format, { ...range, seed, fromIndex, toIndex }, said);
    appendFileSync(notesPath, `${JSON.stringify({ tally, nextIndex: fromIndex + stretch })}\n`);
  }
}
