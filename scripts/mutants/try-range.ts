import type { Cost } from './cost.ts';
import { EMPTY_TALLY, type Failure, greater, type Tally } from './tally.ts';

/** Inputs `fromIndex`, `fromIndex + stepCount` … below `toIndex`. */
export interface IndexRange {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly stepCount: number;
  /** Inputs known to kill the process. */
  readonly skip: readonly number[];
}

/** What one input came to. */
export interface TrialOutcome extends Cost {
  readonly codes: readonly string[];
  readonly story: string;
  readonly fault: string | null;
}

/** Tries the inputs of a range one after the other, in this process. */
export function tryRange(range: IndexRange, tryIndex: (index: number) => TrialOutcome): Tally {
  const codes = new Map<string, number>();
  const failures: Failure[] = [];
  let { triedCount, slowest, largest } = EMPTY_TALLY;
  for (let index = range.fromIndex; index < range.toIndex; index += range.stepCount) {
    if (range.skip.includes(index)) continue;
    const trial = tryIndex(index);
    triedCount += 1;
    for (const code of trial.codes.length === 0 ? ['nothing'] : trial.codes)
      codes.set(code, (codes.get(code) ?? 0) + 1);
    if (trial.fault !== null) failures.push({ index, story: trial.story, fault: trial.fault });
    slowest = greater(slowest, { index, amount: trial.tookMs });
    if (trial.grownOctets > 0) largest = greater(largest, { index, amount: trial.grownOctets });
  }
  return { triedCount, codes: Object.fromEntries(codes), failures, slowest, largest };
}
