/**
 * Reads of typed arrays at an index that is known to be inside. One function for each kind of array, so that each stays
 * fast in inner loops.
 */

export const f64 = (array: Float64Array, index: number): number => array[index] ?? 0;
export const i32 = (array: Int32Array, index: number): number => array[index] ?? 0;
export const i16 = (array: Int16Array, index: number): number => array[index] ?? 0;
export const u16 = (array: Uint16Array, index: number): number => array[index] ?? 0;
export const u8 = (array: Uint8Array, index: number): number => array[index] ?? 0;

/** Element of a list at an index that is known to be inside; an index outside is our own mistake. */
export function item<T>(list: readonly T[], index: number): T {
  const found = list[index];
  if (found === undefined) throw new Error(`no element ${index} in a list of ${list.length}`);
  return found;
}
