/** What the benchmark measures of this program. */
import { decodePacked, type GribScan, scanGrib } from '../../lib/grib/index.ts';

/** One round over a file. */
export interface Round {
  readonly fieldCount: number;
  readonly valueCount: number;
  readonly refusedCount: number;
}

/** Room for the values of any field of a scan. */
export const roomFor = ({ fields }: GribScan): Float64Array =>
  new Float64Array(Math.max(0, ...fields.map(({ pointCount }) => pointCount)));

/** Lists the file and decodes every field, all into the same room: what the reference does with handles and its buffer. */
export function decodeAll(bytes: Uint8Array, room: Float64Array): Round {
  const { fields } = scanGrib(bytes, 'bench');
  let [valueCount, refusedCount] = [0, 0];
  for (const field of fields) {
    const values = decodePacked(bytes, field, { into: room });
    if (values.ok) valueCount += values.value.length;
    else refusedCount += 1;
  }
  return { fieldCount: fields.length, valueCount, refusedCount };
}

/**
 * Octets of array buffers per value that are there right after the first field was decoded to a new array and were not before:
 * the eight of the values and what the decoding used besides, as far as it was not collected meanwhile. Null where the
 * field is refused.
 */
export function bufferOctetsPerValue(bytes: Uint8Array): number | null {
  const [field] = scanGrib(bytes, 'bench').fields;
  if (field === undefined) return null;
  // Buffers are given back some time after the first collection that finds them.
  for (let times = 0; times < 3; times++) globalThis.gc?.();
  const before = process.memoryUsage().arrayBuffers;
  const values = decodePacked(bytes, field);
  const grown = process.memoryUsage().arrayBuffers - before;
  return values.ok ? grown / values.value.length : null;
}
