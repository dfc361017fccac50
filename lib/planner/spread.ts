/** Percentiles over the scenarios, one value per slot. */
export interface Spread {
  readonly p10: Float32Array;
  readonly p50: Float32Array;
  readonly p90: Float32Array;
}
