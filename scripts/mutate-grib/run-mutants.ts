/** Tries the mutants of a range, in this process. */
import { type Cost, costed } from '../mutants/cost.ts';
import type { KindCount, Tally } from '../mutants/tally.ts';
import { type IndexRange, tryRange } from '../mutants/try-range.ts';
import { kindsOf } from './kinds.ts';
import { type Mutant, mutant, type Sample } from './mutations.ts';
import { sweepOf } from './sweep.ts';
import { type Attempt, tryInput } from './try-input.ts';

/** Of which inputs. */
export interface MutantRange extends IndexRange {
  /** Of the damages drawn; null: the sweep, in which nothing is drawn. */
  readonly seed: number | null;
}

/** What one input came to, with what it cost. */
export interface Trial extends Mutant, Attempt, Cost {}

/** How an input comes of its index. */
export type MakeInput = (index: number) => Mutant;

/** Inputs drawn from a seed, or those of the sweep. */
export function inputsOf(samples: readonly Sample[], seed: number | null): MakeInput {
  return seed === null ? sweepOf(samples).input : (index) => mutant(samples, { seed, index });
}

export function tryMutant(make: MakeInput, index: number): Trial {
  const made = make(index);
  return { ...made, ...costed(() => tryInput(made.bytes)) };
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
  const tally = tryRange(range, (index) => {
    started(index);
    const trial = tryMutant(make, index);
    countKinds(kinds, kindsOfSample[trial.sampleIndex] ?? [], trial);
    return trial;
  });
  return { ...tally, kinds: Object.fromEntries(kinds) };
}

function countKinds(kinds: Map<string, KindCount>, shown: readonly string[], { codes }: Attempt): void {
  const decodedCount = codes.includes('decoded') ? 1 : 0;
  for (const kind of shown) {
    const before = kinds.get(kind) ?? { triedCount: 0, decodedCount: 0 };
    kinds.set(kind, { triedCount: before.triedCount + 1, decodedCount: before.decodedCount + decodedCount });
  }
}
