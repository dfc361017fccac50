import { ok, type Result } from '../../../lib/result/index.ts';
import {
  BUILT_IN_SOURCES,
  creditOf,
  type Destination,
  estimateFetch,
  type FetchedForecast,
  type FetchEstimate,
  type FetchJob,
  type FetchLimits,
  realWorld,
  startFetch,
  tooLarge,
} from '../../../server/fetchers/index.ts';
import { openStore, type Store } from '../../../server/stores/index.ts';
import type { CommandIo } from '../command.ts';
import { takeApart, WrongUse } from './arguments.ts';
import { GET_OPTIONS, type Goal, readGoal, readLimits, readWish, type Wish } from './get-arguments.ts';
import { cycleText, estimateText, fetchedText, progressText, templatesText } from './get-words.ts';
import { reportProblems } from './read-files.ts';

export const GET_HELP = `slatch forecast get URL… | --template ID | --source FILE [--cycle latest|YYYY-MM-DDTHH]
    [--steps 0-120/3] [--quantities wind,gust] [--members 0-30/2] [--out FILE | --store DIR] [--estimate]
    [--rate-kb-per-s N] [--most-mb N] [--tries N] [--timeout-s N] [--json]
slatch forecast get --templates [--json]

  Fetches a forecast over HTTP or HTTPS into the store, or into a file with --out. Of a source with an index only the
  messages wanted are fetched. A broken line is resumed; what has come stays after Ctrl-C, and the same command goes on
  from there. Nothing enters the store unless every message was read without a problem.
  --templates  lists the public sources that come with Slatch, and whose data they are; --source takes your own (JSON)
  --steps      hours from the start of the run; every third up to 120 unless told. Member 0 is the control run
  --estimate   only says how much there is to fetch
  --tries      tries in a row that bring nothing new (8); --timeout-s: longest silence (60); --most-mb: most in all (1000)

  slatch forecast get --template gfs --steps 0-72/3 --quantities wind,gust --rate-kb-per-s 50
`;

/** `slatch forecast get`. */
export async function getForecast(args: readonly string[], io: CommandIo): Promise<number> {
  const given = takeApart(args, GET_OPTIONS);
  if (typeof given === 'string') throw new WrongUse(given);
  const asJson = given.flags.has('json');
  if (given.flags.has('templates')) {
    io.out(asJson ? `${JSON.stringify(BUILT_IN_SOURCES, null, 2)}\n` : templatesText());
    return 0;
  }
  const limits = readLimits(given);
  const goal = readGoal(given);
  const wish = await readWish(given, io);
  if (!wish.ok) return fail(io, wish);
  return given.flags.has('estimate')
    ? tellEstimate(wish.value, { limits, asJson }, io)
    : fetchTo(goal, wish.value, { limits, asJson, io });
}

function fail(io: CommandIo, result: Extract<Result<unknown>, { ok: false }>): number {
  reportProblems(io, result.problems);
  return 1;
}

async function tellEstimate(
  { targets, source }: Wish,
  { limits, asJson }: { limits: FetchLimits; asJson: boolean },
  io: CommandIo,
): Promise<number> {
  const estimate = await untilInterrupted((signal) => estimateFetch({ targets, limits, signal }));
  if (!estimate.ok) return fail(io, estimate);
  const cycleUtc = cycleText(targets[0]?.cycleEpochMs ?? null);
  const json = { ...estimate.value, cycleUtc, attribution: source?.attribution ?? null };
  io.out(asJson ? `${JSON.stringify(json, null, 2)}\n` : estimateText(estimate.value, limits.mostOctetsPerS));
  return 0;
}

interface Doing {
  readonly limits: FetchLimits;
  readonly asJson: boolean;
  readonly io: CommandIo;
}

async function fetchTo(goal: Goal, wish: Wish, doing: Doing): Promise<number> {
  if (goal.kind === 'file') return fetchInto({ kind: 'file', path: goal.path }, { goal, wish }, doing);
  const store: Result<Store> = openStore(goal.folder);
  if (!store.ok) return fail(doing.io, store);
  try {
    const credit = wish.source === null ? {} : { credit: creditOf(wish.source) };
    return await fetchInto({ kind: 'store', forecasts: store.value.forecasts, ...credit }, { goal, wish }, doing);
  } finally {
    store.value.close();
  }
}

async function fetchInto(
  destination: Destination,
  { goal, wish }: { goal: Goal; wish: Wish },
  doing: Doing,
): Promise<number> {
  const { limits, io } = doing;
  const before = await untilInterrupted((signal) => estimateBefore(wish, limits, signal));
  // What broke for the estimate may hold for the fetch, which tries again, and tells what it finds.
  if (!before.ok && before.problems[0].code === 'fetch.cancelled') return fail(io, before);
  if (before.ok) io.err(estimateText(before.value, limits.mostOctetsPerS));
  const { targets, fileName, mustHold } = wish;
  if (before.ok && (before.value.allOctets ?? 0) > limits.mostOctets) {
    reportProblems(io, [tooLarge(fileName, limits.mostOctets)]);
    return 1;
  }
  const job = startFetch({ targets, fileName, destination, keepFolder: goal.keepFolder, mustHold, limits });
  const fetched = await watched(job, io);
  if (!fetched.ok) return fail(io, fetched);
  tellFetched(fetched.value, { goal, wish }, doing);
  return 0;
}

function tellFetched(
  fetched: FetchedForecast,
  { goal, wish }: { goal: Goal; wish: Wish },
  { asJson, io }: Doing,
): void {
  const { fileName, source, targets } = wish;
  if (!asJson) {
    const place = goal.kind === 'file' ? `Written to ${goal.path}.` : `In the store ${goal.folder} as ${fetched.hash}.`;
    io.out(fetchedText(fetched, { fileName, place, source }));
    return;
  }
  const json = {
    ...fetched,
    ...(goal.kind === 'file' ? { path: goal.path } : { store: goal.folder }),
    fileName,
    cycleUtc: cycleText(targets[0]?.cycleEpochMs ?? null),
    attribution: source?.attribution ?? null,
    licence: source?.licence ?? null,
  };
  io.out(`${JSON.stringify(json, null, 2)}\n`);
}

/** Of a source, what is usual: asking would cost a thin line what is fetched anyway. Of other addresses, what they say. */
function estimateBefore({ targets }: Wish, limits: FetchLimits, signal: AbortSignal): Promise<Result<FetchEstimate>> {
  const usual = targets.map(({ typicalOctets }) => typicalOctets ?? Number.NaN);
  const allOctets = usual.reduce((sum, octets) => sum + octets, 0);
  if (Number.isNaN(allOctets)) return estimateFetch({ targets, limits, signal });
  return Promise.resolve(ok({ fileCount: targets.length, askedCount: 0, allOctets, isGuess: true }));
}

const SAY_EVERY_MS = 5000;
const LOOK_EVERY_MS = 250;

/** Says on standard error how far a fetch is, every five seconds and whenever it has to wait; Ctrl-C stops it. */
async function watched(job: FetchJob, io: CommandIo): Promise<Result<FetchedForecast>> {
  let saidEpochMs = realWorld.nowEpochMs();
  let waitSaidEpochMs: number | null = null;
  const timer = setInterval(() => {
    const progress = job.progress();
    const nowEpochMs = realWorld.nowEpochMs();
    const isNewWait = progress.waitUntilEpochMs !== null && progress.waitUntilEpochMs !== waitSaidEpochMs;
    if (!isNewWait && nowEpochMs - saidEpochMs < SAY_EVERY_MS) return;
    saidEpochMs = nowEpochMs;
    waitSaidEpochMs = progress.waitUntilEpochMs;
    io.err(progressText(progress, nowEpochMs));
  }, LOOK_EVERY_MS);
  const stop = (): void => {
    job.cancel();
  };
  process.once('SIGINT', stop);
  try {
    return await job.finished;
  } finally {
    clearInterval(timer);
    process.off('SIGINT', stop);
  }
}

/** Work that Ctrl-C stops. */
async function untilInterrupted<T>(work: (signal: AbortSignal) => Promise<T>): Promise<T> {
  const controller = new AbortController();
  const stop = (): void => {
    controller.abort();
  };
  process.once('SIGINT', stop);
  try {
    return await work(controller.signal);
  } finally {
    process.off('SIGINT', stop);
  }
}
