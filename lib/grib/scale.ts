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

/** The same in the form the inner loops use: value = (packed · step + reference) · factor. */
export interface LinearScale {
  readonly reference: number;
  readonly step: number;
  readonly factor: number;
}

/** Multiplication by 10^-D instead of division by 10^D: twice as fast, and within one last place of a double. */
export const linearScale = (scale: Scale): LinearScale => ({
  reference: scale.referenceValue,
  step: 2 ** scale.binaryScaleFactor,
  factor: Number(`1e${-scale.decimalScaleFactor}`),
});

/** Replaces packed whole numbers by values, in place. NaN stays NaN. */
export function applyScale(values: Float64Array, { reference, step, factor }: LinearScale): void {
  for (let i = 0; i < values.length; i++) values[i] = ((values[i] ?? 0) * step + reference) * factor;
}
