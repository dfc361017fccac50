/** Values of one field. */
import { failed, ok, type Problem, type Result } from '../result/index.ts';
import { countPresent, countsDiffer, spread } from './bitmap.ts';
import type { GribField } from './field.ts';
import { isProblem } from './is-problem.ts';
import { hasMark, START_MARK } from './marks.ts';
import { unpackComplex } from './packing/complex.ts';
import { unpackEdition1 } from './edition-1/unpack.ts';
import { unpackSimple } from './packing/simple.ts';
import { tooManyPoints, whereMessage } from './problems.ts';
import { viewSection } from './section.ts';

/**
 * Values of a field in the order of the file; missing ones are NaN. Units are those of the WMO table of the parameter.
 *
 * @param bytes the file that was scanned
 * @returns `pointCount` values, or the problem: the field's grid or packing is not supported, its data are damaged,
 *   or `grib.bytes-changed` when these are not the octets that were scanned. A field whose product is not understood
 *   is decoded all the same.
 */
export function decodeField(bytes: Uint8Array, field: GribField): Result<Float64Array> {
  return field.obstacles.grid === null ? decodePacked(bytes, field) : failed(field.obstacles.grid);
}

/**
 * As `decodeField`, for any grid: the values without knowing where they lie. For checks and for listing extremes.
 */
export function decodePacked(bytes: Uint8Array, field: GribField): Result<Float64Array> {
  const { packing } = field.obstacles;
  if (packing !== null) return failed(packing);
  if (!areScannedBytes(bytes, field)) return failed(bytesChanged(field));
  const values = spreadThroughBitmap(bytes, field);
  return isProblem(values) ? failed(values) : ok(values);
}

function spreadThroughBitmap(bytes: Uint8Array, field: GribField): Float64Array | Problem {
  const { bitmap } = field.location;
  if (bitmap === null) return unpack(bytes, field, field.pointCount);
  const section = viewSection(bytes, field.edition === 2 ? 6 : 3, bitmap);
  const tooMany = tooManyPoints(field, { section, octet: 1 }, field.pointCount);
  if (tooMany !== null) return tooMany;
  const present = countPresent(field, section, field.pointCount);
  if (typeof present !== 'number') return present;
  if (field.edition === 2 && present !== field.packing.packedCount) {
    return countsDiffer(field, section, { presentCount: present, packedCount: field.packing.packedCount });
  }
  const packed = unpack(bytes, field, present);
  return isProblem(packed) ? packed : spread(section, packed, field.pointCount);
}

function unpack(bytes: Uint8Array, field: GribField, count: number): Float64Array | Problem {
  if (field.edition === 1) return unpackEdition1(bytes, field, count);
  const representation = viewSection(bytes, 5, field.location.representation);
  const section = viewSection(bytes, 7, field.location.data);
  if (field.packing.templateNumber !== 0) return unpackComplex(field, { bytes, representation, data: section, count });
  const { bitsPerValue, referenceValue } = field.packing;
  // A constant field stores no numbers. Encoders in use leave the decimal factor set but store the plain value
  // as reference, so the factor is not applied; both national reference decoders read it this way.
  if (bitsPerValue === 0) return new Float64Array(count).fill(referenceValue);
  return unpackSimple(field, { bytes, section, firstOctet: 6, count, bitsPerValue, scale: field.packing });
}

function areScannedBytes(bytes: Uint8Array, field: GribField): boolean {
  const { representation, bitmap, data } = field.location;
  const places = [representation, data, ...(bitmap === null ? [] : [bitmap])];
  const isInside = places.every(({ startIndex, lengthOctets }) => startIndex + lengthOctets <= bytes.length);
  return isInside && hasMark(bytes, field.messageOffsetOctet, START_MARK);
}

function bytesChanged(field: GribField): Problem {
  return {
    code: 'grib.bytes-changed',
    where: whereMessage(field),
    what: 'The file no longer holds this message.',
    expected: 'the octets that were listed',
    remedy: 'Read the file again from the start.',
  };
}
