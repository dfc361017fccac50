/** Requests that lie, sent to the pages one after the other; what they answer, and what becomes of server and store. */
import { MOST_GROWN_OCTETS } from '../../mutants/cost.ts';
import { EMPTY_TALLY, type Failure, type Tally } from '../../mutants/tally.ts';
import { type Exchange, exchange } from './exchange.ts';
import { answerFault, bareWordsIn } from './judge-answer.ts';
import type { SentRequest } from './sent-request.ts';
import { type Pages, startPages } from './pages-process.ts';
import { type Asked, readPool } from './pool.ts';
import { requestOf } from './requests.ts';

/** What took longer is asked once more, alone: then no more processor time of the server may go by [ms]. */
const MOST_MS = 2000;
/** So many requests are sent at once. */
const AT_ONCE_COUNT = 4;
/** The server is looked at after so many, and begins anew with a new store after so many. */
const BATCH_COUNT = 200;
const ANEW_COUNT = 4000;

export interface RequestRange {
  readonly seed: number;
  readonly fromIndex: number;
  readonly count: number;
}

interface Run {
  readonly seed: number;
  readonly statuses: Map<string, number>;
  readonly failures: Failure[];
  slowest: { index: number; amount: number };
  largestOctets: number;
}

interface Served {
  readonly pages: Pages;
  readonly asked: readonly Asked[];
  readonly baseOctets: number;
  version: string;
  /** Something was saved since, as far as answers tell. */
  isStale: boolean;
  /** Words of a machine that were saved: things are called so from now on. */
  readonly keptWords: Set<string>;
}

const SAVED = '303';
/** Answers after which the passage may have another version. */
const OF_ANOTHER_VERSION = [SAVED, '409'];

/** What was sent where it came to a failure, by index. */
const sentOf = new Map<number, Buffer>();
export const failedRequest = (index: number): Buffer => sentOf.get(index) ?? Buffer.alloc(0);

export async function tryRequests({ seed, fromIndex, count }: RequestRange): Promise<Tally> {
  const run: Run = { seed, statuses: new Map(), failures: [], slowest: EMPTY_TALLY.slowest, largestOctets: 0 };
  const endIndex = fromIndex + count;
  for (let from = fromIndex; from < endIndex; from += ANEW_COUNT)
    // One server after the other.
    // oxlint-disable-next-line no-await-in-loop
    await tryOnOne(run, from, Math.min(endIndex, from + ANEW_COUNT));
  return {
    ...EMPTY_TALLY,
    triedCount: count,
    codes: Object.fromEntries(run.statuses),
    failures: run.failures,
    slowest: run.slowest,
    largest: { index: fromIndex, amount: run.largestOctets },
  };
}

async function served(): Promise<Served> {
  const pages = await startPages();
  const asked = await readPool(pages.port);
  const { heldOctets } = await pages.state();
  return {
    pages,
    asked,
    baseOctets: heldOctets,
    version: await versionNow(pages.port),
    isStale: false,
    keptWords: new Set(),
  };
}

async function renewVersion(on: Served): Promise<void> {
  on.version = await versionNow(on.pages.port);
  on.isStale = false;
}

/** What the forms of the passage carry as its version. */
async function versionNow(port: number): Promise<string> {
  const page = await (await fetch(`http://127.0.0.1:${port}/jobs`)).text();
  return /name="version" value="([^"]*)"/.exec(page)?.[1] ?? '';
}

/** A server that is gone is a failure of the batch; the rest is tried on a new one. */
async function tryOnOne(run: Run, from: number, to: number): Promise<void> {
  let on = await served();
  for (let index = from; index < to; index += BATCH_COUNT) {
    const end = Math.min(to, index + BATCH_COUNT);
    // Batches and requests in their order.
    // oxlint-disable-next-line no-await-in-loop
    const fault = await tryBatch(run, on, index, end);
    if (fault === null) continue;
    run.failures.push({ index, story: `requests ${index} to ${end - 1}`, fault });
    // oxlint-disable-next-line no-await-in-loop
    await on.pages.stop();
    // oxlint-disable-next-line no-await-in-loop
    on = await served();
  }
  await on.pages.stop();
}

async function tryBatch(run: Run, on: Served, from: number, to: number): Promise<string | null> {
  try {
    for (let index = from; index < to; index += AT_ONCE_COUNT) {
      const indices = Array.from({ length: Math.min(AT_ONCE_COUNT, to - index) }, (_, i) => index + i);
      // oxlint-disable-next-line no-await-in-loop
      await Promise.all(indices.map((one) => tryOne(run, on, one)));
      // oxlint-disable-next-line no-await-in-loop
      if (on.isStale) await renewVersion(on);
      if (on.pages.isGone()) return `the server ended at one of requests ${indices.join(', ')}`;
    }
    const { reported, heldOctets } = await on.pages.state();
    run.largestOctets = Math.max(run.largestOctets, heldOctets - on.baseOctets);
    if (heldOctets - on.baseOctets > MOST_GROWN_OCTETS)
      return `the server grew by ${Math.round((heldOctets - on.baseOctets) / 2 ** 20)} MiB`;
    const [mistake] = reported;
    if (mistake !== undefined) return `it reports its own mistake: ${mistake.slice(0, 900)}`;
    return await on.pages.storeFault();
  } catch (error) {
    return `the server does not answer: ${error instanceof Error ? error.message : String(error)}`;
  }
}

async function tryOne(run: Run, on: Served, index: number): Promise<void> {
  const { pages, asked, version } = on;
  const host = `127.0.0.1:${pages.port}`;
  const request = requestOf({ asked, host, version }, { seed: run.seed, index });
  const answered = await exchange(pages.port, request);
  const statuses = new Set<string>();
  const fault = answerFault(request, answered, statuses, on.keptWords) ?? (await slowFault(pages, request, answered));
  if (statuses.has(SAVED)) for (const word of bareWordsIn(request.octets.toString('utf8'))) on.keptWords.add(word);
  for (const status of statuses) run.statuses.set(status, (run.statuses.get(status) ?? 0) + 1);
  if (OF_ANOTHER_VERSION.some((status) => statuses.has(status))) on.isStale = true;
  if (answered.tookMs > run.slowest.amount) run.slowest = { index, amount: answered.tookMs };
  if (fault === null) return;
  run.failures.push({ index, story: request.story, fault });
  sentOf.set(index, request.octets);
}

async function slowFault(pages: Pages, request: SentRequest, { tookMs }: Exchange): Promise<string | null> {
  if (tookMs <= MOST_MS) return null;
  const beforeMs = pages.busyMs();
  await exchange(pages.port, request);
  const busyMs = pages.busyMs() - beforeMs;
  return busyMs <= MOST_MS ? null : `it took ${Math.round(busyMs)} ms of processor time`;
}
