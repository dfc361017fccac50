/**
 * What the passes over a code-block remember of its coefficients, four to a word (D.1, D.3).
 *
 * A word stands for one column of a stripe of four rows. Around the words of a code-block lies a border of one word.
 *
 * - Bits 0 to 17, significant: six rows from the one above the stripe on, in each the column to the west, the own one, the
 *   column to the east.
 * - Bits 18 to 29, three for each of the four own coefficients: coded in the significance pass of this bit-plane; refined
 *   before; negative.
 * - Bits 30 and 31, negative: the coefficient above the own ones, the coefficient below them.
 *
 * Shifted right by three bits for each row, a word shows the coefficient of that row: bits 0 to 8 its neighbourhood and
 * itself, bits 18 to 20 its own three.
 */
export const STRIPE_ROWS = 4;

/** Significance of the stripe and all that touches it. */
export const ANY_NEAR = 0x3_ffff;
/** Significance of the coefficient in row 0, and of its eight neighbours. */
export const OWN = 0x10;
export const NEIGHBOURS = 0x1ef;
/** Significance of the four own coefficients. */
export const ALL_OWN = 0x2490;

/** Own bits of the coefficient in row 0. */
export const CODED = 0x4_0000;
export const REFINED = 0x8_0000;
export const NEGATIVE_SHIFT = 20;
/** `CODED` of all four rows. */
export const ALL_CODED = 0x924_0000;

export const NEGATIVE_ABOVE_SHIFT = 30;
export const NEGATIVE_BELOW_SHIFT = 31;

/** Most words of a code-block with its border: 1024 columns and one stripe. */
export const MOST_WORDS = 3 * 1026;
