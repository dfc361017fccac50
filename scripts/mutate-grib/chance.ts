/** What a damage may draw. */
import { type Draws, drawsOf, type MutantAt } from '../mutants/draws.ts';

/** A whole message, or a short file of several. */
export interface Sample {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Choices of one mutant. */
export interface Chance extends Draws {
  readonly anySample: () => Sample;
}

/** Takes the octets as its own; returns new ones or the same. */
export type Damage = (bytes: Uint8Array, chance: Chance) => Uint8Array;

/** Always the same for a seed and an index. */
export function chanceOf(samples: readonly Sample[], at: MutantAt): Chance {
  const draws = drawsOf(at);
  return { ...draws, anySample: () => draws.pick(samples) };
}
