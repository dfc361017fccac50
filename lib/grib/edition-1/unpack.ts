/** Section 4 (BDS) of edition 1, simple packing of grid-point values. */
import type { Problem } from '../../result/index.ts';
import type { GribField } from '../field.ts';
import { unscaleDecimal } from '../scale.ts';
import { viewSection } from '../section.ts';
import { unpackSimple } from '../packing/simple.ts';

/** Octet at which the packed numbers begin. */
const FIRST_OCTET = 12;

/** `count` values; a field of 0 bits per value is constant: reference / 10^D. */
export function unpackEdition1(bytes: Uint8Array, field: GribField, count: number): Float64Array | Problem {
  const { bitsPerValue, referenceValue, decimalScaleFactor } = field.packing;
  if (bitsPerValue === 0) return new Float64Array(count).fill(unscaleDecimal(referenceValue, decimalScaleFactor));
  const section = viewSection(bytes, 4, field.location.data);
  return unpackSimple(field, { bytes, section, firstOctet: FIRST_OCTET, count, bitsPerValue, scale: field.packing });
}
