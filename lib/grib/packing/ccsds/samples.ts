/** Samples as they come out of the blocks: the prediction undone, scaled, and put in their place. */
import type { LinearScale } from '../../scale.ts';

export class Samples {
  readonly values: Float64Array;
  /** Kept as it came: the inner loops are twice as fast on its numbers as on fields of this class. */
  readonly scale: LinearScale;
  /** Greatest sample, 2^n - 1. */
  readonly greatest: number;
  readonly isPreprocessed: boolean;
  /** Values already in place. */
  doneCount = 0;
  /** Sample before the next one: its prediction. */
  previous = 0;
  /** True once a number came that no sample can have given. */
  isImpossible = false;

  constructor(
    output: { readonly values: Float64Array; readonly scale: LinearScale },
    options: { readonly bitsPerValue: number; readonly isPreprocessed: boolean },
  ) {
    this.values = output.values;
    this.scale = output.scale;
    this.greatest = 2 ** options.bitsPerValue - 1;
    this.isPreprocessed = options.isPreprocessed;
  }

  /** Values still wanted. */
  get leftCount(): number {
    return this.values.length - this.doneCount;
  }

  /** A sample as it is. */
  put(x: number): void {
    const { reference, step, factor } = this.scale;
    this.values[this.doneCount] = (x * step + reference) * factor;
    this.doneCount += 1;
    this.previous = x;
  }

  /** A number of a block: a mapped difference from the prediction when preprocessed, else the sample itself. */
  putCoded(d: number): void {
    if (d > this.greatest) this.isImpossible = true;
    else this.put(this.isPreprocessed ? unmapped(this.previous, d, this.greatest) : d);
  }

  /** Says that samples are in place up to `doneCount`, the last of them x; x is -1 where an impossible number was met. */
  finish(x: number, doneCount: number): void {
    this.previous = x;
    this.doneCount = doneCount;
    if (x < 0) this.isImpossible = true;
  }

  /** As many zeros in the place of `putCoded`. */
  putZeros(count: number): void {
    const x = this.isPreprocessed ? this.previous : 0;
    const { reference, step, factor } = this.scale;
    const value = (x * step + reference) * factor;
    this.values.fill(value, this.doneCount, this.doneCount + count);
    this.doneCount += count;
  }
}

/**
 * Sample from its prediction x and the mapped difference d, any width up to 32 bits. Differences both ways alternate as long
 * as both stay between 0 and `g`; beyond, only one way is left (CCSDS 121.0-B, section 4.4, prediction error mapper, inverted).
 */
function unmapped(x: number, d: number, g: number): number {
  const nearest = Math.min(x, g - x);
  if (d > 2 * nearest) return x <= g - x ? d : g - d;
  return d % 2 === 0 ? x + d / 2 : x - (d + 1) / 2;
}
