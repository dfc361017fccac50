/**
 * Damages GRIB messages in many ways and watches what the GRIB room does with them: it must answer every input, with
 * values or with problems, in time and without much memory.
 *
 *     npm run mutate-grib -- [--count N] [--seed S] [FOLDER…]      both workers, N inputs
 *     npm run mutate-grib -- [--seed S] --only INDEX [FOLDER…]     one input again, in this process; the same while
 *                                                                  the samples are (their mark in brackets)
 *
 * Samples are the messages of tests/golden and sample-forecasts, and of the folders given. A failure is a throw, more than
 * 2 s of processor time, a process grown by more than 512 MiB, another number of values than points, a value that is
 * infinite, a place off the globe, or a part of a field that differs from the whole. Failing inputs are written to a folder
 * that is named at the end. Exit code 0: no failure; 1: some; 2: wrong use.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type MutateArguments, mutateArguments } from './mutate-grib/arguments.ts';
import { mutant, type Sample } from './mutate-grib/mutations.ts';
import { tryMutant } from './mutate-grib/run-mutants.ts';
import { readSamples, samplesMark } from './mutate-grib/samples.ts';
import { addTallies, EMPTY_TALLY, type Failure, formatTally, type Tally } from './mutate-grib/tally.ts';
import { watchWorker } from './mutate-grib/watch-worker.ts';
import { taskOfWords, work, WORKER_WORD } from './mutate-grib/worker.ts';

const WORKERS = 2;
const SCRIPT = fileURLToPath(import.meta.url);

async function runAll({ count, seed, folders }: MutateArguments): Promise<Tally> {
  const scratch = mkdtempSync(join(tmpdir(), 'mutate-grib-'));
  const tasks = Array.from({ length: WORKERS }, (_, worker) => ({
    folders,
    range: { seed, fromIndex: worker, toIndex: count, stepCount: WORKERS, skip: [] },
    progressPath: join(scratch, `progress-${worker}`),
    notesPath: join(scratch, `notes-${worker}`),
  }));
  const tallies = await Promise.all(tasks.map((task) => watchWorker(SCRIPT, task)));
  rmSync(scratch, { recursive: true });
  return tallies.reduce(addTallies, EMPTY_TALLY);
}

/** Name of the file of a failing input. */
const failureFile = (seed: number, index: number): string => `seed-${seed}-index-${index}.grib`;

function keepFailures(samples: readonly Sample[], seed: number, failures: readonly Failure[]): void {
  const folder = mkdtempSync(join(tmpdir(), 'mutate-grib-failures-'));
  for (const { index, fault } of failures) {
    const { bytes, story } = mutant(samples, { seed, index });
    writeFileSync(join(folder, failureFile(seed, index)), bytes);
    console.log(`--seed ${seed} --only ${index}: ${story}\n    ${fault}`);
  }
  console.log(`Failing inputs are in ${folder}`);
}

function tryOne(samples: readonly Sample[], { seed, only }: { seed: number; only: number }): number {
  const trial = tryMutant(samples, { seed, index: only });
  const path = join(mkdtempSync(join(tmpdir(), 'mutate-grib-')), failureFile(seed, only));
  writeFileSync(path, trial.bytes);
  console.log(`${trial.story}\n${path}, ${trial.bytes.length} octets`);
  console.log(`outcome: ${trial.codes.join(', ') || 'nothing'}`);
  console.log(`took ${trial.tookMs.toFixed(1)} ms, grew by ${(trial.grownOctets / 2 ** 20).toFixed(1)} MiB`);
  console.log(trial.fault ?? 'no fault');
  return trial.fault === null ? 0 : 1;
}

async function main(asked: MutateArguments): Promise<number> {
  const { seed, only } = asked;
  const samples = readSamples(asked.folders);
  console.log(`${samples.length} samples (${samplesMark(samples)}), seed ${seed}`);
  if (only !== null) return tryOne(samples, { seed, only });
  console.log(`${asked.count} inputs, ${WORKERS} workers`);
  const startMs = performance.now();
  const tally = await runAll(asked);
  console.log(`${formatTally(tally)}\n${((performance.now() - startMs) / 1000).toFixed(0)} s`);
  if (tally.failures.length > 0) keepFailures(samples, seed, tally.failures);
  return tally.failures.length === 0 ? 0 : 1;
}

const words = process.argv.slice(2);
if (words[0] === WORKER_WORD) work(taskOfWords(words.slice(1)));
else {
  try {
    process.exitCode = await main(mutateArguments(words));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 2;
  }
}
