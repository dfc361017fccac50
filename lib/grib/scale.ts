/** Scale factors: value = (reference + packed · 2^E) / 10^D (regulation 92.9.4). */

/** Largest factors accepted; beyond them values leave the range of a double. Real ones stay within ±30. */
export const MOST_BINARY_FACTOR = 256;
export const MOST_DECIMAL_FACTOR = 128;

/** Reference value R, binary factor E, decimal factor D. */
export interface Scale {
  readonly referenceValue: number;
  readonly binaryScaleFactor: number;
  readonly decimalScaleFactor: number;
}

/** value · 10^-factor. Powers of ten up to 22 are exact in a double and their inverses are not, so it divides by the former. */
export function unscaleDecimal(value: number, decimalScaleFactor: number): number {
  const power = Number(`1e${Math.abs(decimalScaleFactor)}`);
  return decimalScaleFactor >= 0 ? value / power : value * power;
}

/** Replaces packed whole numbers by values, in place. NaN stays NaN. */
export function applyScale(values: Float64Array, scale: Scale): Float64Array {
  const { referenceValue, binaryScaleFactor, decimalScaleFactor } = scale;
  const step = 2 ** binaryScaleFactor;
  const power = Number(`1e${Math.abs(decimalScaleFactor)}`);
  if (decimalScaleFactor > 0) {
    for (let i = 0; i < values.length; i++) values[i] = ((values[i] ?? 0) * step + referenceValue) / power;
  } else {
    for (let i = 0; i < values.length; i++) values[i] = ((values[i] ?? 0) * step + referenceValue) * power;
  }
  return values;
}
