/** Values to whole numbers above a reference: X = round(value · 10^D / 2^E) − R / 2^E. */

/** Present values as whole numbers; `reference` is R, exact in single precision. */
export interface Quantised {
  readonly packed: Float64Array;
  readonly reference: number;
  readonly decimalScaleFactor: number;
  readonly binaryScaleFactor: number;
  /** One bit per grid point, or null when no value is missing. */
  readonly bitmap: Uint8Array | null;
  /** Largest of `packed`. */
  readonly largestCount: number;
}

/** D and E of regulation 92.9.4: values are kept to 2^E · 10^-D. */
export interface ScaleFactors {
  readonly decimalScaleFactor: number;
  readonly binaryScaleFactor: number;
}

/** Rounds to the factors and splits off missing values. Throws on infinite values or a span above 2^32. */
export function quantise(values: ArrayLike<number>, factors: ScaleFactors): Quantised {
  const { decimalScaleFactor, binaryScaleFactor } = factors;
  const scaled = scaledPresent(values, factors);
  let smallest = Infinity;
  let largest = -Infinity;
  for (const value of scaled) {
    smallest = Math.min(smallest, value);
    largest = Math.max(largest, value);
  }
  const lowest = scaled.length === 0 ? 0 : singleAtOrBelow(smallest);
  const span = scaled.length === 0 ? 0 : Math.round(largest - lowest);
  if (!(span < 2 ** 32)) {
    throw new Error(
      `values span ${span} steps of 2^${binaryScaleFactor} · 10^-${decimalScaleFactor}, more than 32 bits`,
    );
  }
  return {
    packed: scaled.map((value) => Math.round(value - lowest)),
    // A power of two leaves it exact in single precision.
    reference: lowest * 2 ** binaryScaleFactor,
    ...factors,
    bitmap: scaled.length === values.length ? null : presenceBits(values),
    largestCount: span,
  };
}

function scaledPresent(values: ArrayLike<number>, factors: ScaleFactors): Float64Array {
  const power = Number(`1e${factors.decimalScaleFactor}`) / 2 ** factors.binaryScaleFactor;
  const scaled = new Float64Array(values.length);
  let presentCount = 0;
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? Number.NaN;
    if (Number.isNaN(value)) continue;
    if (!Number.isFinite(value)) throw new Error('values must be finite or NaN');
    scaled[presentCount++] = Math.round(value * power);
  }
  return scaled.subarray(0, presentCount);
}

/** The single-precision number nearest to the value from below: Section 5 holds R in four octets. */
function singleAtOrBelow(value: number): number {
  const nearest = Math.fround(value);
  if (nearest <= value) return nearest;
  const bits = new DataView(new ArrayBuffer(4));
  bits.setFloat32(0, nearest);
  // Neighbouring floats have neighbouring bit patterns; toward zero for positive numbers, away from it for negative ones.
  bits.setInt32(0, bits.getInt32(0) + (nearest > 0 ? -1 : 1));
  return bits.getFloat32(0);
}

function presenceBits(values: ArrayLike<number>): Uint8Array {
  const bits = new Uint8Array(Math.ceil(values.length / 8));
  for (let i = 0; i < values.length; i++) {
    if (!Number.isNaN(values[i] ?? NaN)) bits[i >>> 3] = (bits[i >>> 3] ?? 0) | (0x80 >>> (i & 7));
  }
  return bits;
}
