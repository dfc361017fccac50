/** Significance and refinement passes of raw bits, past the arithmetic decoder (selective bypass, D.6). */
import { ANY_NEAR, CODED, NEGATIVE_SHIFT, NEIGHBOURS, OWN, REFINED, STRIPE_ROWS } from './block-flags.ts';
import type { CodeBlockDecoder } from './code-block.ts';

/**
 * Bits of a raw codeword segment: most significant first; after an octet FF one bit is stuffed. Beyond the end stand
 * ones, as an encoder may leave out last octets FF.
 */
export class RawBits {
  readonly #octets: Uint8Array;
  #nextIndex = 0;
  #octet = 0;
  #leftBits = 0;

  constructor(octets: Uint8Array) {
    this.#octets = octets;
  }

  readBit(): number {
    if (this.#leftBits === 0) {
      this.#leftBits = this.#octet === 0xff ? 7 : 8;
      this.#octet = this.#octets[this.#nextIndex] ?? 0xff;
      this.#nextIndex += 1;
    }
    this.#leftBits -= 1;
    return (this.#octet >> this.#leftBits) & 1;
  }
}

/** Calls back for each coefficient of a code-block in the order of the passes, with its word and its row in the stripe. */
function eachCoefficient(
  block: CodeBlockDecoder,
  visit: (at: { wordIndex: number; rowIndex: number; coefficientIndex: number }) => void,
): void {
  for (let stripe = 0; stripe < block.stripeCount; stripe++) {
    const rowCount = Math.min(STRIPE_ROWS, block.rowCount - stripe * STRIPE_ROWS);
    for (let column = 0; column < block.columnCount; column++) {
      const wordIndex = (stripe + 1) * block.stride + 1 + column;
      const firstIndex = STRIPE_ROWS * (stripe * block.columnCount + column);
      for (let rowIndex = 0; rowIndex < rowCount; rowIndex++) {
        visit({ wordIndex, rowIndex, coefficientIndex: firstIndex + rowIndex });
      }
    }
  }
}

/** D.3.1 with raw bits; a sign is one bit, 1 for negative. */
export function passRawSignificance(block: CodeBlockDecoder, bits: RawBits, planeIndex: number): void {
  const { flags, magnitudes } = block;
  eachCoefficient(block, ({ wordIndex, rowIndex, coefficientIndex }) => {
    const word = flags[wordIndex] ?? 0;
    const near = word >>> (3 * rowIndex);
    if ((word & ANY_NEAR) === 0 || (near & OWN) !== 0 || (near & NEIGHBOURS) === 0) return;
    flags[wordIndex] = word | (CODED << (3 * rowIndex));
    if (bits.readBit() === 0) return;
    const negative = bits.readBit();
    flags[wordIndex] = word | ((CODED | OWN | (negative << NEGATIVE_SHIFT)) << (3 * rowIndex));
    block.spread(wordIndex, 3 * rowIndex, negative);
    magnitudes[coefficientIndex] = 3 << planeIndex;
  });
}

/** D.3.3 with raw bits. */
export function passRawRefinement(block: CodeBlockDecoder, bits: RawBits, planeIndex: number): void {
  const { flags, magnitudes } = block;
  eachCoefficient(block, ({ wordIndex, rowIndex, coefficientIndex }) => {
    const word = flags[wordIndex] ?? 0;
    if (((word >>> (3 * rowIndex)) & (OWN | CODED)) !== OWN) return;
    flags[wordIndex] = word | (REFINED << (3 * rowIndex));
    const half = 1 << planeIndex;
    magnitudes[coefficientIndex] = (magnitudes[coefficientIndex] ?? 0) + (bits.readBit() === 0 ? -half : half);
  });
}
