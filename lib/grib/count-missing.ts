/** Points without a value, counted without unpacking where the packing allows it. */
import { countPresent } from './bitmap.ts';
import { decodePacked } from './decode.ts';
import type { GribField } from './field.ts';
import { octet1, viewSection } from './section.ts';

/**
 * Number of points without a value. The bitmap tells it; only complex packing may mark missing values among the packed ones,
 * and is unpacked for it.
 *
 * @param bytes the file that was scanned
 * @returns null when the packing is not read, or the octets that tell it are damaged
 */
export function countMissing(bytes: Uint8Array, field: GribField): number | null {
  const { bitmap } = field.location;
  if (field.obstacles.packing !== null) return null;
  if (marksMissing(bytes, field)) return countNaN(bytes, field);
  if (bitmap === null) return 0;
  const section = viewSection(bytes, field.edition === 2 ? 6 : 3, bitmap);
  const presentCount = countPresent(field, section, field.pointCount);
  return typeof presentCount === 'number' ? field.pointCount - presentCount : null;
}

/** Octet 23 of Section 5 in templates 5.2 and 5.3, code table 5.5: 0 marks no value as missing. */
function marksMissing(bytes: Uint8Array, { packing, location }: GribField): boolean {
  return packing.method === 'complex' && octet1(viewSection(bytes, 5, location.representation), 23) !== 0;
}

function countNaN(bytes: Uint8Array, field: GribField): number | null {
  const values = decodePacked(bytes, field);
  return values.ok ? values.value.reduce((count, value) => count + (Number.isNaN(value) ? 1 : 0), 0) : null;
}
