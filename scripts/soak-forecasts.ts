/**
 * Forecasts that are refused, torn off and given up, again and again: nothing of them may be left.
 *
 *     npm run soak-forecasts -- [--rounds N] [--seed S]
 *
 * Each round damages a sample (as `npm run mutate-grib` does), gives it to a store of its own whole, torn off in the
 * middle, or too long, decodes it, or begins to and is stopped, and removes what was kept. After a tenth of the
 * rounds and at the end it counts files, entries, open handles, threads and memory. Exit code 0: nothing has grown; 1: it
 * has; 2: wrong use. Handles, threads and memory are counted on Linux.
 */
import { existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { loadForecast } from '../server/decoding/index.ts';
import { openStore, type Store } from '../server/stores/index.ts';
import { mutant, type Sample } from './mutate-grib/mutations.ts';
import { readSamples } from './mutate-grib/samples.ts';
import { processStatus } from './process-status.ts';

const MOST_OCTETS = 400_000;
/** Memory the end may hold more than the beginning, after collection [octets]. */
const MOST_GROWN_OCTETS = 48 * 2 ** 20;
/** Longer samples only make the rounds slow. */
const MOST_SAMPLE_OCTETS = 20_000;

interface Count {
  readonly files: number;
  readonly entries: number;
  readonly handles: number;
  readonly threads: number;
  readonly memoryOctets: number;
}

function countNow(store: Store): Count {
  globalThis.gc?.();
  const listed = store.forecasts.list();
  return {
    files: readdirSync(join(store.folder, 'grib')).length,
    entries: listed.ok ? listed.value.length : -1,
    handles: existsSync('/proc/self/fd') ? readdirSync('/proc/self/fd').length : 0,
    threads: processStatus('Threads'),
    memoryOctets: processStatus('VmRSS'),
  };
}

/** The octets in pieces, up to a place at which their sender is gone. */
async function* tornOff(bytes: Uint8Array): AsyncGenerator<Uint8Array> {
  yield bytes.subarray(0, Math.ceil(bytes.length / 2));
  await Promise.resolve();
  throw Object.assign(new Error('the sender is gone'), { code: 'ECONNRESET' });
}

/** One way of giving a file to the store, by the number of the round. */
function contentOf(bytes: Uint8Array, round: number): AsyncIterable<Uint8Array> | Iterable<Uint8Array> {
  if (round % 3 === 1) return tornOff(bytes);
  return round % 3 === 2 ? [bytes, new Uint8Array(MOST_OCTETS)] : [bytes];
}

async function addAndRemove(store: Store, bytes: Uint8Array, round: number): Promise<void> {
  const forecast = { fileName: `round-${round}.grib`, content: contentOf(bytes, round), mostOctets: MOST_OCTETS };
  const added = await store.forecasts.add({ ...forecast, atEpochMs: round }).catch(() => null);
  if (added?.ok === true) await store.forecasts.remove(added.value.hash);
}

async function decode(bytes: Uint8Array, round: number): Promise<void> {
  const stop = new AbortController();
  const onProgress = (): void => {
    if (round % 5 === 0) stop.abort(new Error('given up'));
  };
  await loadForecast([{ name: 'round.grib', bytes }], { onProgress, signal: stop.signal, threadCount: 2 }).catch(
    (error: unknown) => {
      if (!(error instanceof Error && error.message === 'given up')) throw error;
    },
  );
}

function grown(before: Count, after: Count): string[] {
  const more = (['files', 'entries', 'handles', 'threads'] as const).filter((what) => after[what] > before[what]);
  return after.memoryOctets - before.memoryOctets > MOST_GROWN_OCTETS ? [...more, 'memory'] : more;
}

const wordsOf = ({ memoryOctets, ...counts }: Count): string =>
  [
    ...Object.entries(counts).map(([what, count]) => `${count} ${what}`),
    `${Math.round(memoryOctets / 2 ** 20)} MiB`,
  ].join(', ');

async function soak(samples: readonly Sample[], of: { rounds: number; seed: number }): Promise<number> {
  const folder = mkdtempSync(join(tmpdir(), 'soak-forecasts-'));
  const opened = openStore(folder);
  if (!opened.ok) throw new Error(opened.problems[0].what);
  const store = opened.value;
  let before: Count | null = null;
  for (let round = 0; round < of.rounds; round++) {
    const { bytes } = mutant(samples, { seed: of.seed, index: round });
    // oxlint-disable-next-line no-await-in-loop -- one after the other
    await addAndRemove(store, bytes, round);
    // oxlint-disable-next-line no-await-in-loop
    await decode(bytes, round);
    if (round === Math.floor(of.rounds / 10)) before = countNow(store);
  }
  const after = countNow(store);
  store.close();
  rmSync(folder, { recursive: true });
  const more = before === null ? [] : grown(before, after);
  console.log(`after a tenth of ${of.rounds} rounds: ${before === null ? 'not counted' : wordsOf(before)}`);
  console.log(`at the end:              ${wordsOf(after)}`);
  console.log(more.length === 0 ? 'nothing has grown' : `grown: ${more.join(', ')}`);
  return more.length === 0 ? 0 : 1;
}

const whole = (text: string | undefined, otherwise: number): number =>
  text === undefined ? otherwise : /^\d{1,7}$/.test(text) ? Number(text) : Number.NaN;

try {
  const { values } = parseArgs({ options: { rounds: { type: 'string' }, seed: { type: 'string' } } });
  const [rounds, seed] = [whole(values.rounds, 1000), whole(values.seed, 1)];
  if (Number.isNaN(rounds) || Number.isNaN(seed)) throw new Error('--rounds and --seed: expected whole numbers');
  const samples = readSamples(['tests/golden']).filter(({ bytes }) => bytes.length <= MOST_SAMPLE_OCTETS);
  process.exitCode = await soak(samples, { rounds, seed });
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 2;
}
