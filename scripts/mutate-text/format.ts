import type { Attempt } from './attempt.ts';
import type { Sample, WeighedDamage } from './mutant.ts';

/** A kind of text that people and programs hand over. */
export interface TextFormat {
  readonly samples: readonly Sample[];
  /** Damages of this format; those of any text come on top. */
  readonly own: readonly WeighedDamage[];
  /** Reads it as the program does, and goes as far with what was read as told. */
  readonly attempt: (octets: Uint8Array, depth: Depth) => Attempt;
}

/** `read` only; written and read back `again`; `used` for windows, a check, a cut. The farther, the more it costs. */
export type Depth = 'read' | 'again' | 'used';

/** As the program decodes a text that may be in any encoding. */
export const decoded = (octets: Uint8Array): string => new TextDecoder().decode(octets);
