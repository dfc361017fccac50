import { uniformDraws } from '../sample-forecasts/random.ts';

/** Choices of one mutant, always the same for a seed and an index. */
export interface Chance {
  /** A whole number from 0, below `count`. */
  readonly below: (count: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  /** True once in so many. */
  readonly oneIn: (count: number) => boolean;
}

export function chanceOf(at: { readonly seed: number; readonly index: number }): Chance {
  const draw = uniformDraws(Math.imul(at.seed, 0x9e3779b1) ^ Math.imul(at.index + 1, 0x85ebca6b));
  const below = (count: number): number => Math.floor(draw() * count);
  const pick = <T>(list: readonly T[]): T => {
    const found = list[below(list.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  };
  return { below, pick, oneIn: (count) => below(count) === 0 };
}
