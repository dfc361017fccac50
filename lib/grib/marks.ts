/** The four characters that begin and end a message. */

export const START_MARK: readonly number[] = [0x47, 0x52, 0x49, 0x42]; // GRIB
export const END_MARK: readonly number[] = [0x37, 0x37, 0x37, 0x37]; // 7777

/** True when the mark stands at the index, whole. */
export const hasMark = (bytes: Uint8Array, index: number, mark: readonly number[]): boolean =>
  mark.every((octet, i) => bytes[index + i] === octet);

/** Index of the next start mark at or after `fromIndex`, or null. */
export function nextStart(bytes: Uint8Array, fromIndex: number): number | null {
  let index = bytes.indexOf(START_MARK[0] ?? 0, fromIndex);
  while (index >= 0 && !hasMark(bytes, index, START_MARK)) index = bytes.indexOf(START_MARK[0] ?? 0, index + 1);
  return index < 0 ? null : index;
}
