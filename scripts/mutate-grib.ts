/**
 * Damages GRIB messages in many ways and watches what the GRIB room does with them: it must answer every input, with
 * values or with problems, in time and without much memory.
 *
 *     npm run mutate-grib -- [--count N] [--seed S] [FOLDER…]      both workers, N inputs with damages drawn
 *     npm run mutate-grib -- --sweep [FOLDER…]                     every number of every header, every cut, every section
 *     npm run mutate-grib -- [--seed S | --sweep] --only INDEX …   one input again, in this process; the same while
 *                                                                  the samples are (their mark in brackets)
 *
 * Samples are the messages of tests/golden and sample-forecasts, and of the folders given. A failure is a throw, more than
 * 2 s of processor time, a process grown by more than 512 MiB, another number of values than points, a value that is
 * infinite, a place off the globe, a part of a field that differs from the whole, a forecast that is none, or a problem that
 * does not say where and what in words of ours. At the end a table says which kinds of packing, grid and product the samples
 * show. Failing inputs are written to a folder that is named. Exit code 0: no failure; 1: some; 2: wrong use.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type MutateArguments, mutateArguments } from './mutate-grib/arguments.ts';
import { EXPECTED_KINDS, kindsOf } from './mutate-grib/kinds.ts';
import type { Sample } from './mutate-grib/mutations.ts';
import { inputsOf, type MakeInput, tryMutant } from './mutate-grib/run-mutants.ts';
import { readSamples, samplesMark } from './mutate-grib/samples.ts';
import { sweepOf } from './mutate-grib/sweep.ts';
import { addTallies, EMPTY_TALLY, type Failure, formatKinds, formatTally, type Tally } from './mutants/tally.ts';
import { watchWorker } from './mutate-grib/watch-worker.ts';
import { taskOfWords, work, WORKER_WORD } from './mutate-grib/worker.ts';

const WORKERS = 2;
const SCRIPT = fileURLToPath(import.meta.url);

/** Which inputs: so many of a seed; seed null: of the sweep. */
interface Inputs {
  readonly count: number;
  readonly seed: number | null;
}

async function runAll({ count, seed, folders }: Inputs & { readonly folders: readonly string[] }): Promise<Tally> {
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
const failureFile = (seed: number | null, index: number): string =>
  `${seed === null ? 'sweep' : `seed-${seed}`}-index-${index}.grib`;
const optionOf = (seed: number | null): string => (seed === null ? '--sweep' : `--seed ${seed}`);

function keepFailures(make: MakeInput, seed: number | null, failures: readonly Failure[]): void {
  const folder = mkdtempSync(join(tmpdir(), 'mutate-grib-failures-'));
  for (const { index, fault } of failures) {
    const { bytes, story } = make(index);
    writeFileSync(join(folder, failureFile(seed, index)), bytes);
    console.log(`${optionOf(seed)} --only ${index}: ${story}\n    ${fault}`);
  }
  console.log(`Failing inputs are in ${folder}`);
}

function tryOne(make: MakeInput, seed: number | null, index: number): number {
  const trial = tryMutant(make, index);
  const path = join(mkdtempSync(join(tmpdir(), 'mutate-grib-')), failureFile(seed, index));
  writeFileSync(path, trial.bytes);
  console.log(`${trial.story}\n${path}, ${trial.bytes.length} octets`);
  console.log(`outcome: ${trial.codes.join(', ') || 'nothing'}`);
  console.log(`took ${trial.tookMs.toFixed(1)} ms, grew by ${(trial.grownOctets / 2 ** 20).toFixed(1)} MiB`);
  console.log(trial.fault ?? 'no fault');
  return trial.fault === null ? 0 : 1;
}

/** Samples of each kind, those that none shows among them. */
function sampleCounts(samples: readonly Sample[]): Map<string, number> {
  const counts = new Map(EXPECTED_KINDS.map((kind) => [kind, 0]));
  for (const sample of samples) for (const kind of kindsOf(sample)) counts.set(kind, (counts.get(kind) ?? 0) + 1);
  return counts;
}

async function main(asked: MutateArguments): Promise<number> {
  const samples = readSamples(asked.folders);
  const seed = asked.isSweep ? null : asked.seed;
  const count = asked.isSweep ? sweepOf(samples).count : asked.count;
  const make = inputsOf(samples, seed);
  console.log(`${samples.length} samples (${samplesMark(samples)}), ${optionOf(seed)}`);
  if (asked.only !== null) return tryOne(make, seed, asked.only);
  console.log(`${count} inputs, ${WORKERS} workers`);
  const startMs = performance.now();
  const tally = await runAll({ count, seed, folders: asked.folders });
  console.log(formatKinds(tally.kinds ?? {}, sampleCounts(samples)));
  console.log(`${formatTally(tally)}\n${((performance.now() - startMs) / 1000).toFixed(0)} s`);
  if (tally.failures.length > 0) keepFailures(make, seed, tally.failures);
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
