import { failed, ok, type Result } from '../../../lib/result/index.ts';
import type { FetchTarget } from '../sources/plan-targets.ts';
import { contentLength, readContentRange } from './content-range.ts';
import { makeMeter } from './meter.ts';
import { type Answer, openAnswer } from './open-answer.ts';
import { cancelled } from './problems.ts';
import { tokenBucket } from './pace.ts';
import { promisedOctets } from './range-place.ts';
import { freshState } from './read-index.ts';
import { setbackOf, statusSetback, type Tried } from './setback.ts';
import type { FetchLimits, Workshop } from './request.ts';
import { realWorld, type World } from './world.ts';

/** What a fetch will cost, before it is begun. */
export interface FetchEstimate {
  readonly fileCount: number;
  /** Files whose size was asked for; the others are taken to be like them. */
  readonly askedCount: number;
  /** Octets of all files; null: the source does not say. */
  readonly allOctets: number | null;
  /** False where `allOctets` is the sum of what the source says of every file. */
  readonly isGuess: boolean;
}

/** Files asked for: enough to know, few enough for a thin line. */
const MOST_ASKED_COUNT = 6;

/**
 * Asks the source how much there is to fetch: by the index where it has one, else by HEAD (or, where that is not answered,
 * by asking for one octet). Of many files a few from the first to the last are asked for.
 *
 * @returns the problem of the first file that cannot be asked for
 */
export async function estimateFetch(
  { targets, limits, signal }: { targets: readonly FetchTarget[]; limits: FetchLimits; signal: AbortSignal },
  world: World = realWorld,
): Promise<Result<FetchEstimate>> {
  const shop: Workshop = {
    world,
    limits,
    signal,
    pace: tokenBucket(null, world),
    meter: makeMeter([], world),
    otherOctets: () => 0,
  };
  const asked = spread(targets);
  let sumOctets = 0;
  let isGuess = asked.length < targets.length;
  for (const target of asked) {
    if (signal.aborted) return failed(cancelled(target.url));
    const size = await sizeOf(target, shop);
    if (!size.ok) return failed(size.setback.problem);
    const octets = size.value ?? target.typicalOctets;
    if (octets === null)
      return ok({ fileCount: targets.length, askedCount: asked.length, allOctets: null, isGuess: true });
    isGuess ||= size.value === null;
    sumOctets += octets;
  }
  const allOctets = asked.length === 0 ? 0 : Math.round((sumOctets * targets.length) / asked.length);
  return ok({ fileCount: targets.length, askedCount: asked.length, allOctets, isGuess });
}

/** A few of many, evenly, the first and the last among them. */
function spread<T>(all: readonly T[]): readonly T[] {
  if (all.length <= MOST_ASKED_COUNT) return all;
  return Array.from({ length: MOST_ASKED_COUNT }, (_, index) =>
    all.at(Math.round((index * (all.length - 1)) / (MOST_ASKED_COUNT - 1))),
  ).filter((one) => one !== undefined);
}

async function sizeOf(target: FetchTarget, shop: Workshop): Promise<Tried<number | null>> {
  if (target.index === null) return wholeSize(target.url, shop);
  const fresh = await freshState(target, shop);
  if (!fresh.ok) return fresh;
  const promised = promisedOctets(fresh.value.ranges);
  if (promised !== null) return { ok: true, value: promised };
  // The last message reaches to the end of the file, which the index does not tell.
  const whole = await wholeSize(target.url, shop);
  if (!whole.ok || whole.value === null) return whole;
  const endOctet = whole.value;
  const ranges = fresh.value.ranges.map((range) => ({ ...range, endOctet: range.endOctet ?? endOctet }));
  return { ok: true, value: promisedOctets(ranges) };
}

async function wholeSize(address: string, shop: Workshop): Promise<Tried<number | null>> {
  const head = await ask(address, { method: 'HEAD', headers: {} }, shop);
  if (!head.ok) return head;
  if (head.value.status === 200) {
    const octets = contentLength(head.value.headers);
    if (octets !== null) return { ok: true, value: octets };
  } else if (![400, 403, 405, 501].includes(head.value.status)) {
    return { ok: false, setback: statusSetback(address, head.value, shop.world.nowEpochMs()) };
  }
  const part = await ask(address, { method: 'GET', headers: { range: 'bytes=0-0' } }, shop);
  if (!part.ok) return part;
  const { status, headers } = part.value;
  if (status === 206) return { ok: true, value: readContentRange(headers.get('content-range'))?.wholeOctets ?? null };
  if (status === 200) return { ok: true, value: contentLength(headers) };
  return { ok: false, setback: statusSetback(address, part.value, shop.world.nowEpochMs()) };
}

async function ask(
  address: string,
  how: { method: 'GET' | 'HEAD'; headers: Readonly<Record<string, string>> },
  { limits: { connectMs, idleMs }, signal, world }: Workshop,
): Promise<Tried<Answer>> {
  const opened = await openAnswer({ address, ...how, connectMs, idleMs, signal }, world);
  if (!opened.ok) return { ok: false, setback: setbackOf(opened.problems[0]) };
  opened.value.close();
  return { ok: true, value: opened.value };
}
