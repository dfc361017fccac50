/** One case of the benchmark: rounds of ours and of the reference in turn, the best of each. */
import { readFileSync } from 'node:fs';
import { scanGrib } from '../../lib/grib/index.ts';
import type { Anchor, AnchorRound } from './anchor.ts';
import type { BenchCase } from './cases.ts';
import { bufferOctetsPerValue, decodeAll, roomFor } from './ours.ts';

/** What a case came to; rates are values per second, or messages per second for an index. */
export interface Measured {
  readonly fieldCount: number;
  readonly refusedCount: number;
  readonly valueCount: number;
  readonly oursPerS: number;
  readonly anchorPerS: number | null;
  /** Ours over the reference's. */
  readonly speedRatio: number | null;
  /** What the reference did not read. */
  readonly note: string;
  /** Array buffers per value, octets; null where not measured. */
  readonly memoryOctets: number | null;
}

/** Until the code is compiled and the file is in the cache. */
const WARM_UP_MS = 250;
const FEWEST_ROUNDS = 5;
const MOST_ROUNDS = 60;
const ROUNDS_MS = 1100;

interface BestRounds {
  readonly oursMs: number;
  readonly anchor: AnchorRound | null;
  readonly rounds: readonly TimedRound[];
}

/** Ours and the reference's, one right after the other [ms]. */
export interface TimedRound {
  readonly oursMs: number;
  readonly anchorMs: number;
}

export interface MeasuredRounds extends Measured {
  /** Empty without a reference. */
  readonly rounds: readonly TimedRound[];
}

export async function measure(one: BenchCase, path: string, anchor: Anchor | null): Promise<MeasuredRounds> {
  const bytes = new Uint8Array(readFileSync(path));
  const scan = scanGrib(bytes, 'bench');
  const room = roomFor(scan);
  const work = one.measures === 'index' ? () => scanGrib(bytes, 'bench') : () => decodeAll(bytes, room);
  const { fieldCount, refusedCount, valueCount } = decodeAll(bytes, room);
  warmUp(work);
  const hasMultiFields = scan.fields.some(({ submessageNumber }) => submessageNumber > 1);
  const timeOf = (round: AnchorRound): number => (one.measures === 'index' ? round.headerS : round.totalS);
  const best = await rounds(work, timeOf, anchor === null ? null : () => anchor.round(path, hasMultiFields));
  const messageCount = scan.fields.at(-1)?.messageNumber ?? 0;
  const oursPerS = (one.measures === 'index' ? messageCount : valueCount) / (best.oursMs / 1000);
  const anchorCount = one.measures === 'index' ? messageCount : best.anchor?.valueCount;
  const anchorPerS = best.anchor === null || !anchorCount ? null : anchorCount / timeOf(best.anchor);
  return {
    fieldCount,
    refusedCount,
    valueCount,
    oursPerS,
    anchorPerS,
    speedRatio: anchorPerS === null ? null : oursPerS / anchorPerS,
    note: noteOn({ fieldCount, valueCount }, best.anchor),
    memoryOctets: one.isForMemory ? bufferOctetsPerValue(bytes) : null,
    rounds: best.rounds,
  };
}

function warmUp(work: () => unknown): void {
  const startMs = performance.now();
  while (performance.now() - startMs < WARM_UP_MS) work();
}

async function rounds(
  work: () => unknown,
  timeOf: (round: AnchorRound) => number,
  ask: (() => Promise<AnchorRound>) | null,
): Promise<BestRounds> {
  let [oursMs, best]: [number, AnchorRound | null] = [Infinity, ask === null ? null : await ask()];
  const timed: TimedRound[] = [];
  const startMs = performance.now();
  for (let count = 0; count < MOST_ROUNDS; count++) {
    if (count >= FEWEST_ROUNDS && performance.now() - startMs > ROUNDS_MS) break;
    const roundStartMs = performance.now();
    work();
    const roundMs = performance.now() - roundStartMs;
    oursMs = Math.min(oursMs, roundMs);
    const round = ask === null ? null : await ask();
    if (round !== null) timed.push({ oursMs: roundMs, anchorMs: timeOf(round) * 1000 });
    if (round !== null && (best === null || timeOf(round) < timeOf(best))) best = round;
  }
  return { oursMs, anchor: best, rounds: timed };
}

function noteOn(ours: { fieldCount: number; valueCount: number }, anchor: AnchorRound | null): string {
  if (anchor === null) return '';
  if (anchor.unreadableCount > 0) return `ecCodes cannot read ${anchor.unreadableCount} of ${anchor.fieldCount} fields`;
  return anchor.valueCount === ours.valueCount
    ? ''
    : `ecCodes has ${anchor.valueCount} values, ours ${ours.valueCount}`;
}
