/** Tries the mutants of a range, in this process. */
import { type Mutant, mutant, type Sample } from './mutations.ts';
import { withPeakMemory } from './peak-memory.ts';
import { EMPTY_TALLY, type Failure, greater, type Tally } from './tally.ts';
import { type Attempt, tryInput } from './try-input.ts';

/** Longest an input may take [ms of processor time], most memory it may take [octets]. */
const MOST_MS = 2000;
const MOST_GROWN_OCTETS = 512 * 2 ** 20;

/** Inputs `fromIndex`, `fromIndex + stepCount` … below `toIndex`. */
export interface MutantRange {
  readonly seed: number;
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

export function tryMutant(samples: readonly Sample[], at: { readonly seed: number; readonly index: number }): Trial {
  const made = mutant(samples, at);
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
  const codes = new Map<string, number>();
  const failures: Failure[] = [];
  let { triedCount, slowest, largest } = EMPTY_TALLY;
  for (let index = range.fromIndex; index < range.toIndex; index += range.stepCount) {
    if (range.skip.includes(index)) continue;
    started(index);
    const trial = tryMutant(samples, { seed: range.seed, index });
    triedCount += 1;
    for (const code of trial.codes.length === 0 ? ['nothing'] : trial.codes)
      codes.set(code, (codes.get(code) ?? 0) + 1);
    if (trial.fault !== null) failures.push({ index, story: trial.story, fault: trial.fault });
    slowest = greater(slowest, { index, amount: trial.tookMs });
    if (trial.grownOctets > 0) largest = greater(largest, { index, amount: trial.grownOctets });
  }
  return { triedCount, codes: Object.fromEntries(codes), failures, slowest, largest };
}
