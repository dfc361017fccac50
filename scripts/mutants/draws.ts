import { uniformDraws } from '../sample-forecasts/random.ts';

/** Which mutant of a run. */
export interface MutantAt {
  readonly seed: number;
  readonly index: number;
}

/** Choices of one mutant. */
export interface Draws {
  /** A whole number from 0, below `count`. */
  readonly below: (count: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
}

/** Always the same for a seed and an index. */
export function drawsOf({ seed, index }: MutantAt): Draws {
  const draw = uniformDraws(Math.imul(seed, 0x9e3779b1) ^ Math.imul(index + 1, 0x85ebca6b));
  const below = (count: number): number => Math.floor(draw() * count);
  const pick = <T>(list: readonly T[]): T => {
    const found = list[below(list.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  };
  return { below, pick };
}
