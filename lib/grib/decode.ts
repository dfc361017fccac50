/** Values of one field. */
import { failed, ok, type Problem, type Result } from '../result/index.ts';
import { countPresent, countsDiffer, spread } from './bitmap.ts';
import type { GribField } from './field.ts';
import { hasMark, START_MARK } from './marks.ts';
import { unpackEdition1 } from './edition-1/unpack.ts';
import { unpackEdition2 } from './edition-2/unpack.ts';
import { unpackSecondOrder } from './second-order.ts';
import { tooManyPoints, whereMessage } from './problems.ts';
import { type Section, type SectionPlace, viewSection } from './section.ts';

/** Where the values go. */
export interface DecodeOptions {
  /** At least `pointCount` long; the values are put into its beginning. Left out: a new array. */
  readonly into?: Float64Array;
}

/**
 * Values of a field in the order of the file; missing ones are NaN. Units are those of the WMO table of the parameter.
 *
 * @param bytes the file that was scanned
 * @returns `pointCount` values, or the problem: the field's grid or packing is not supported, its data are damaged,
 *   or `grib.bytes-changed` when these are not the octets that were scanned. A field whose product is not understood
 *   is decoded all the same.
 */
export function decodeField(bytes: Uint8Array, field: GribField, options: DecodeOptions = {}): Result<Float64Array> {
  return field.obstacles.grid === null ? decodePacked(bytes, field, options) : failed(field.obstacles.grid);
}

/**
 * As `decodeField`, for any grid: the values without knowing where they lie. For checks and for listing extremes.
 */
export function decodePacked(bytes: Uint8Array, field: GribField, options: DecodeOptions = {}): Result<Float64Array> {
  const { packing } = field.obstacles;
  if (packing !== null) return failed(packing);
  if (!areScannedBytes(bytes, field)) return failed(bytesChanged(field));
  const values = options.into?.subarray(0, field.pointCount) ?? new Float64Array(field.pointCount);
  if (values.length < field.pointCount) throw new Error(`room for ${values.length} of ${field.pointCount} values`);
  const isSecondOrder = field.packing.method === 'second-order';
  const problem = isSecondOrder
    ? unpackSecondOrder(bytes, field, values)
    : unpackThroughBitmap({ bytes, field }, values);
  return problem === null ? ok(values) : failed(problem);
}

/** Packed values are unpacked into the end of the array, and then spread over all of it. */
function unpackThroughBitmap(source: Source, values: Float64Array): Problem | null {
  const { bitmap } = source.field.location;
  const presentCount = countPacked(source);
  if (typeof presentCount !== 'number') return presentCount;
  const problem = unpack(source, values.subarray(values.length - presentCount));
  if (problem === null && bitmap !== null) spread(bitmapSection(source, bitmap), values, presentCount);
  return problem;
}

interface Source {
  readonly bytes: Uint8Array;
  readonly field: GribField;
}

const bitmapSection = ({ bytes, field }: Source, place: SectionPlace): Section =>
  viewSection(bytes, field.edition === 2 ? 6 : 3, place);

/** Values packed: as many as there are points, or as the bitmap marks. */
function countPacked(source: Source): number | Problem {
  const { field } = source;
  const { bitmap } = field.location;
  if (bitmap === null) return field.pointCount;
  const section = bitmapSection(source, bitmap);
  const tooMany = tooManyPoints(field, { section, octet: 1 }, field.pointCount);
  if (tooMany !== null) return tooMany;
  const presentCount = countPresent(field, section, field.pointCount);
  if (typeof presentCount !== 'number') return presentCount;
  const { packedCount } = field.packing;
  if (field.edition === 1 || presentCount === packedCount) return presentCount;
  return countsDiffer(field, section, { presentCount, packedCount });
}

const unpack = ({ bytes, field }: Source, values: Float64Array): Problem | null =>
  field.edition === 1 ? unpackEdition1(bytes, field, values) : unpackEdition2(bytes, field, values);

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
