/** What a damage may draw. */
import { uniformDraws } from '../sample-forecasts/random.ts';

/** A whole message, or a short file of several. */
export interface Sample {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Choices of one mutant. */
export interface Chance {
  /** A whole number from 0, below `count`. */
  readonly below: (count: number) => number;
  readonly pick: <T>(list: readonly T[]) => T;
  readonly anySample: () => Sample;
}

/** Takes the octets as its own; returns new ones or the same. */
export type Damage = (bytes: Uint8Array, chance: Chance) => Uint8Array;

/** Always the same for a seed and an index. */
export function chanceOf(samples: readonly Sample[], at: { readonly seed: number; readonly index: number }): Chance {
  const draw = uniformDraws(Math.imul(at.seed, 0x9e3779b1) ^ Math.imul(at.index + 1, 0x85ebca6b));
  const below = (count: number): number => Math.floor(draw() * count);
  const pick = <T>(list: readonly T[]): T => {
    const found = list[below(list.length)];
    if (found === undefined) throw new Error('nothing to pick from');
    return found;
  };
  return { below, pick, anySample: () => pick(samples) };
}
