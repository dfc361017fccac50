/** The coefficients of a tile, and how those of a code-block come to their places. */
import { NEGATIVE_SHIFT, STRIPE_ROWS } from './block-flags.ts';
import type { CodeBlockDecoder } from './code-block.ts';

/** Coefficients row by row; whole numbers where 32 bits are enough for all steps of the wavelet. */
export interface Plane<Numbers extends Int32Array | Float64Array = Int32Array | Float64Array> {
  readonly numbers: Numbers;
  readonly columnCount: number;
}

/** Writes the whole numbers of a decoded code-block from an index of the plane on. */
export function storeWhole(decoder: CodeBlockDecoder, plane: Plane<Int32Array>, startIndex: number): void {
  const { flags, magnitudes, columnCount, rowCount, stride } = decoder;
  const { numbers } = plane;
  for (let row = 0; row < rowCount; row++) {
    // Every coefficient once: the flags of a stripe are read again for each of its rows, which the cache holds.
    const inStripe = row % STRIPE_ROWS;
    const signShift = NEGATIVE_SHIFT + 3 * inStripe;
    const firstWord = ((row >> 2) + 1) * stride + 1;
    const first = startIndex + row * plane.columnCount;
    let coefficient = (row >> 2) * columnCount * STRIPE_ROWS + inStripe;
    for (let column = 0; column < columnCount; column++) {
      const magnitude = (magnitudes[coefficient] ?? 0) >>> 1;
      const isNegative = ((flags[firstWord + column] ?? 0) >>> signShift) & 1;
      numbers[first + column] = (magnitude ^ -isNegative) + isNegative;
      coefficient += STRIPE_ROWS;
    }
  }
}

/**
 * Writes the numbers of a decoded code-block as doubles.
 *
 * @param stepWeight step of the sub-band (equation E-6), or null for whole numbers of a reversible wavelet
 */
export function storeWide(
  decoder: CodeBlockDecoder,
  plane: Plane<Float64Array>,
  at: { readonly startIndex: number; readonly stepWeight: number | null },
): void {
  const { flags, magnitudes, columnCount, rowCount, stride } = decoder;
  for (let row = 0; row < rowCount; row++) {
    const inStripe = row % STRIPE_ROWS;
    const firstWord = ((row >> 2) + 1) * stride + 1;
    for (let column = 0; column < columnCount; column++) {
      const doubled = (magnitudes[STRIPE_ROWS * ((row >> 2) * columnCount + column) + inStripe] ?? 0) >>> 0;
      const magnitude = at.stepWeight === null ? Math.floor(doubled / 2) : (doubled / 2) * at.stepWeight;
      const isNegative = ((flags[firstWord + column] ?? 0) >>> (NEGATIVE_SHIFT + 3 * inStripe)) & 1;
      plane.numbers[at.startIndex + row * plane.columnCount + column] = isNegative === 1 ? -magnitude : magnitude;
    }
  }
}
