/** Whole numbers of a code-stream: unsigned, most significant octet first. Beyond the end stand zeros; callers check lengths. */

export const word16 = (bytes: Uint8Array, index: number): number =>
  ((bytes[index] ?? 0) << 8) | (bytes[index + 1] ?? 0);

export const word32 = (bytes: Uint8Array, index: number): number =>
  word16(bytes, index) * 65_536 + word16(bytes, index + 2);
