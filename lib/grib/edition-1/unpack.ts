/** Section 4 (BDS) of edition 1: grid-point values. */
import type { Problem } from '../../result/index.ts';
import type { GribField } from '../field.ts';
import { unscaleDecimal } from '../scale.ts';
import { viewSection } from '../section.ts';
import { unpackSimple } from '../packing/simple.ts';

/** Octet at which the packed numbers begin. */
const FIRST_OCTET = 12;

/** Fills `values`; a field of 0 bits per value is constant: reference / 10^D. */
export function unpackEdition1(bytes: Uint8Array, field: GribField, values: Float64Array): Problem | null {
  const { bitsPerValue, referenceValue, decimalScaleFactor } = field.packing;
  if (bitsPerValue === 0) {
    values.fill(unscaleDecimal(referenceValue, decimalScaleFactor));
    return null;
  }
  const section = viewSection(bytes, 4, field.location.data);
  return unpackSimple(field, { bytes, section, firstOctet: FIRST_OCTET, bitsPerValue, scale: field.packing }, values);
}
