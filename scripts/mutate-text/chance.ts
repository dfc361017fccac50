import { type Draws, drawsOf, type MutantAt } from '../mutants/draws.ts';

/** Choices of one mutant. */
export interface Chance extends Draws {
  /** True once in so many. */
  readonly oneIn: (count: number) => boolean;
}

/** Always the same for a seed and an index. */
export function chanceOf(at: MutantAt): Chance {
  const draws = drawsOf(at);
  return { ...draws, oneIn: (count) => draws.below(count) === 0 };
}
