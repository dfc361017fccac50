/** Tries the mutants of a range, in this process. */
import { kindsOf } from './kinds.ts';
import { type Mutant, mutant, type Sample } from './mutations.ts';
import { withPeakMemory } from './peak-memory.ts';
import { sweepOf } from './sweep.ts';
import { EMPTY_TALLY, type Failure, greater, type KindCount, type Tally } from './tally.ts';
import { type Attempt, tryInput } from './try-input.ts';

/** Longest an input may take [ms of processor time], most memory it may take [octets]. */
const MOST_MS = 2000;
const MOST_GROWN_OCTETS = 512 * 2 ** 20;

/** Inputs `fromIndex`, `fromIndex + stepCount` … below `toIndex`. */
export interface MutantRange {
  /** Of the damages drawn; null: the sweep, in which nothing is drawn. */
  readonly seed: number | null;
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly stepCount: number;
  /** Inputs known to kill the process. */
  readonly skip: readonly number[];
}

/** What one input came to, with what it cost. */
export interface Trial extends Mutant, Attempt {
  readonly tookMs: number;
  readonly grownOctets: number;
}

/** How an input comes of its index. */
export type MakeInput = (index: number) => Mutant;

/** Inputs drawn from a seed, or those of the sweep. */
export function inputsOf(samples: readonly Sample[], seed: number | null): MakeInput {
  return seed === null ? sweepOf(samples).input : (index) => mutant(samples, { seed, index });
}

export function tryMutant(make: MakeInput, index: number): Trial {
  const made = make(index);
  const before = process.cpuUsage();
  const { result, grownOctets } = withPeakMemory(() => tryInput(made.bytes));
  const { user, system } = process.cpuUsage(before);
  const tookMs = (user + system) / 1000;
  return { ...made, ...result, fault: result.fault ?? costFault(tookMs, grownOctets), tookMs, grownOctets };
}

function costFault(tookMs: number, grownOctets: number): string | null {
  if (tookMs > MOST_MS) return `took ${tookMs.toFixed(0)} ms`;
  return grownOctets > MOST_GROWN_OCTETS ? `grew by ${(grownOctets / 2 ** 20).toFixed(0)} MiB` : null;
}

/** `started` hears of each index before it is tried. */
export function runMutants(
  samples: readonly Sample[],
  range: MutantRange,
  started: (index: number) => void = () => undefined,
): Tally {
  const make = inputsOf(samples, range.seed);
  const kindsOfSample = samples.map(kindsOf);
  const kinds = new Map<string, KindCount>();
  const codes = new Map<string, number>();
  const failures: Failure[] = [];
  let { triedCount, slowest, largest } = EMPTY_TALLY;
  for (let index = range.fromIndex; index < range.toIndex; index += range.stepCount) {
    if (range.skip.includes(index)) continue;
    started(index);
    const trial = tryMutant(make, index);
    triedCount += 1;
    countKinds(kinds, kindsOfSample[trial.sampleIndex] ?? [], trial);
    for (const code of trial.codes.length === 0 ? ['nothing'] : trial.codes)
      codes.set(code, (codes.get(code) ?? 0) + 1);
    if (trial.fault !== null) failures.push({ index, story: trial.story, fault: trial.fault });
    slowest = greater(slowest, { index, amount: trial.tookMs });
    if (trial.grownOctets > 0) largest = greater(largest, { index, amount: trial.grownOctets });
  }
  const counts = { codes: Object.fromEntries(codes), kinds: Object.fromEntries(kinds) };
  return { triedCount, ...counts, failures, slowest, largest };
}

function countKinds(kinds: Map<string, KindCount>, shown: readonly string[], { codes }: Attempt): void {
  const decodedCount = codes.includes('decoded') ? 1 : 0;
  for (const kind of shown) {
    const before = kinds.get(kind) ?? { triedCount: 0, decodedCount: 0 };
    kinds.set(kind, { triedCount: before.triedCount + 1, decodedCount: before.decodedCount + decodedCount });
  }
}
