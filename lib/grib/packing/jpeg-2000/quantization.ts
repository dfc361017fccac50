/** Quantization, marker segments QCD and QCC (A.6.4, A.6.5). */
import type { StreamFault } from '../stream-fault.ts';
import { otherComponent } from './coding-style.ts';
import { faultAt } from './faults.ts';
import { type MarkerSegment, tooShort } from './markers.ts';
import { word16 } from './words.ts';

/** Exponent and mantissa of a step, equation E-3. */
export interface QuantizationStep {
  readonly exponentNumber: number;
  readonly mantissaNumber: number;
}

export interface Quantization {
  /** Table A.28: 0 none (exponents only), 1 scalar derived, 2 scalar expounded. */
  readonly styleCode: number;
  readonly guardBits: number;
  /** One for each sub-band, coarsest first; a single one when derived. */
  readonly steps: readonly QuantizationStep[];
}

/** QCD. */
export const readQuantization = (stream: Uint8Array, segment: MarkerSegment): Quantization | StreamFault =>
  tooShort(segment, 1) ?? readSteps(stream, segment, segment.bodyIndex);

/** QCC of component 0. */
export const readQuantizationOverride = (stream: Uint8Array, segment: MarkerSegment): Quantization | StreamFault =>
  tooShort(segment, 2) ?? otherComponent(stream, segment) ?? readSteps(stream, segment, segment.bodyIndex + 1);

function readSteps(stream: Uint8Array, segment: MarkerSegment, index: number): Quantization | StreamFault {
  const code = stream[index] ?? 0;
  const styleCode = code & 31;
  if (styleCode > 2) return faultAt(index, `Quantization style ${styleCode}.`, '0 to 2 (table A.28)');
  const stepOctets = styleCode === 0 ? 1 : 2;
  const steps: QuantizationStep[] = [];
  for (let i = index + 1; i + stepOctets <= segment.endIndex; i += stepOctets) {
    const word = word16(stream, i);
    steps.push(
      styleCode === 0
        ? { exponentNumber: word >> 11, mantissaNumber: 0 }
        : { exponentNumber: word >> 11, mantissaNumber: word & 0x7ff },
    );
  }
  return { styleCode, guardBits: code >> 5, steps };
}

/**
 * Step of a sub-band; null when the header has none for it.
 *
 * @param band its place in the order of sub-bands, coarsest first, and the level of decomposition it comes from
 */
export function stepOfBand(
  quantization: Quantization,
  band: { readonly bandIndex: number; readonly levelNumber: number },
  levelCount: number,
): QuantizationStep | null {
  if (quantization.styleCode !== 1) return quantization.steps[band.bandIndex] ?? null;
  const first = quantization.steps[0];
  if (first === undefined) return null;
  // Equation E-5.
  return { ...first, exponentNumber: first.exponentNumber - levelCount + band.levelNumber };
}
