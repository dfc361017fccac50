/**
 * Damages texts that people and programs hand over, and watches what their readers do: they must answer every input, with
 * what it says or with problems in plain words, in time and without much memory.
 *
 *     npm run mutate-text -- [--format all|NAME,…] [--count N] [--seed S] [--workers 2]
 *     npm run mutate-text -- --format NAME [--seed S] --only INDEX      one input again, in this process
 *
 * Formats: gpx, passage, locker-csv, speed-csv (a speed table), log, plan (as check, compare and --standing read it), sail
 * (damage and battens), digest, message (plans and reports), http (the pages, asked and sent things).
 *
 * A failure is a throw, more than 2 s of processor time, a process grown by more than 512 MiB, a refusal without place,
 * expectation or remedy, with words of a machine, unseen characters or a megabyte of the input, a number that is none in
 * what was accepted, one input in eight that is not the same once written and read back, one in two hundred with which
 * nothing can be done, a changed message that counts as verified. Of http: another answer than a page of ours, a status of
 * 500, more than 2 s, a server that is gone or has grown by 512 MiB, a store that does not check out.
 *
 * Failing inputs are written to a folder that is named at the end. Exit code 0: no failure; 1: some; 2: wrong use.
 */
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { addTallies, EMPTY_TALLY, type Failure, formatTally, type Tally } from './mutants/tally.ts';
import { watchWorker } from './mutate-grib/watch-worker.ts';
import { taskOfWords, WORKER_WORD } from './mutate-grib/worker.ts';
import { HTTP, type MutateTextArguments, mutateTextArguments } from './mutate-text/arguments.ts';
import type { TextFormat } from './mutate-text/format.ts';
import { TEXT_FORMATS } from './mutate-text/formats.ts';
import { failedRequest, tryRequests } from './mutate-text/http/try-requests.ts';
import { sampleFaults, tryText } from './mutate-text/try-text.ts';
import { workOnTexts } from './mutate-text/worker.ts';

const SCRIPT = fileURLToPath(import.meta.url);

function formatNamed(name: string): TextFormat {
  const make = TEXT_FORMATS[name];
  if (make === undefined) throw new Error(`no format ${name}`);
  return make();
}

async function tryFormat(name: string, { count, seed, workerCount }: MutateTextArguments): Promise<Tally> {
  if (name === HTTP) return tryRequests({ seed, fromIndex: 0, count });
  const scratch = mkdtempSync(join(tmpdir(), 'mutate-text-'));
  const tasks = Array.from({ length: workerCount }, (_, worker) => ({
    folders: [name],
    range: { seed, fromIndex: worker, toIndex: count, stepCount: workerCount, skip: [] },
    progressPath: join(scratch, `progress-${worker}`),
    notesPath: join(scratch, `notes-${worker}`),
  }));
  const tallies = await Promise.all(tasks.map((task) => watchWorker(SCRIPT, task)));
  rmSync(scratch, { recursive: true });
  return tallies.reduce(addTallies, EMPTY_TALLY);
}

const octetsOf = (name: string, seed: number, index: number): Uint8Array =>
  name === HTTP ? failedRequest(index) : tryText(formatNamed(name), { seed, index }).octets;

function keepFailures(name: string, seed: number, failures: readonly Failure[]): void {
  const folder = mkdtempSync(join(tmpdir(), `mutate-text-failures-${name}-`));
  for (const { index, story, fault } of failures) {
    writeFileSync(join(folder, `seed-${seed}-index-${index}`), octetsOf(name, seed, index));
    console.log(`--format ${name} --seed ${seed} --only ${index}: ${story}\n    ${fault}`);
  }
  console.log(`Failing inputs are in ${folder}`);
}

async function tryOnly(name: string, seed: number, index: number): Promise<number> {
  const path = join(mkdtempSync(join(tmpdir(), 'mutate-text-')), `seed-${seed}-index-${index}`);
  if (name === HTTP) {
    const tally = await tryRequests({ seed, fromIndex: index, count: 1 });
    writeFileSync(path, octetsOf(name, seed, index));
    console.log(`${path}\n${formatTally(tally)}`);
    for (const { story, fault } of tally.failures) console.log(`${story}\n    ${fault}`);
    return tally.failures.length === 0 ? 0 : 1;
  }
  const trial = tryText(formatNamed(name), { seed, index });
  writeFileSync(path, trial.octets);
  console.log(`${trial.story}\n${path}, ${trial.octets.length} octets`);
  console.log(`outcome: ${trial.codes.join(', ')}`);
  console.log(`took ${trial.tookMs.toFixed(1)} ms, grew by ${(trial.grownOctets / 2 ** 20).toFixed(1)} MiB`);
  console.log(trial.fault ?? 'no fault');
  return trial.fault === null ? 0 : 1;
}

async function main(asked: MutateTextArguments): Promise<number> {
  const { formats, seed, only } = asked;
  const [first] = formats;
  if (only !== null && first !== undefined) return tryOnly(first, seed, only);
  let failureCount = 0;
  for (const name of formats) {
    const [fault] = name === HTTP ? [] : sampleFaults(formatNamed(name));
    if (fault !== undefined) throw new Error(`a sample is refused: ${fault}`);
    const startMs = performance.now();
    // One after the other: each has the machine for itself.
    // oxlint-disable-next-line no-await-in-loop
    const tally = await tryFormat(name, asked);
    console.log(`${name}, seed ${seed}: ${formatTally(tally)}`);
    console.log(`${((performance.now() - startMs) / 1000).toFixed(0)} s\n`);
    if (tally.failures.length > 0) keepFailures(name, seed, tally.failures);
    failureCount += tally.failures.length;
  }
  return failureCount === 0 ? 0 : 1;
}

const words = process.argv.slice(2);
if (words[0] === WORKER_WORD) {
  const task = taskOfWords(words.slice(1));
  workOnTexts(() => formatNamed(task.folders[0] ?? ''), task);
} else {
  try {
    process.exitCode = await main(mutateTextArguments(words, Object.keys(TEXT_FORMATS)));
  } catch (error) {
    console.error(error instanceof Error ? error.message : error);
    process.exitCode = 2;
  }
}
