/** Sections 5 and 7 in simple packing (templates 5.0 and 7.0). */
import { bitSink, bitsNeeded, putBits } from './bit-writer.ts';
import { ieeeOctets, sectionOctets, signedOctets, unsigned } from './octets.ts';
import type { Quantised } from './quantise.ts';

/** Data representation and data of one field. */
export interface PackedSections {
  readonly representation: Uint8Array;
  readonly data: Uint8Array;
}

/** Code table 5.1: the original values are floating point. */
export const FLOATING_POINT = 0;

const UNSCALED = { decimalScaleFactor: 0, binaryScaleFactor: 0 };

/**
 * Packs whole numbers. A constant field is written as the plain value with factor 0 and no bits, the one form
 * that all readers agree on.
 */
export function packSimple(field: Quantised): PackedSections {
  const bitsPerValue = bitsNeeded(field.largestCount);
  const isConstant = bitsPerValue === 0;
  const { decimalScaleFactor, binaryScaleFactor } = isConstant ? UNSCALED : field;
  const reference = isConstant ? field.reference / Number(`1e${field.decimalScaleFactor}`) : field.reference;
  const sink = bitSink(bitsPerValue * field.packed.length);
  for (const value of field.packed) putBits(sink, value, bitsPerValue);
  return {
    representation: sectionOctets(5, [
      ...unsigned(field.packed.length, 4),
      ...unsigned(0, 2),
      ...ieeeOctets(reference),
      ...signedOctets(binaryScaleFactor, 2),
      ...signedOctets(decimalScaleFactor, 2),
      bitsPerValue,
      FLOATING_POINT,
    ]),
    data: sectionOctets(7, sink.octets),
  };
}

/** Octets of Sections 5 and 7 in simple packing, without packing. */
export const simpleOctets = ({ largestCount, packed }: Quantised): number =>
  21 + 5 + Math.ceil((bitsNeeded(largestCount) * packed.length) / 8);
