/** CRC-32 of bzip2: polynomial 04C11DB7, highest bit first, begun and ended with all ones. */
const TABLE = Uint32Array.from({ length: 256 }, (_, octet) => {
  let crc = octet << 24;
  for (let bit = 0; bit < 8; bit++) crc = crc < 0 ? (crc << 1) ^ 0x04c1_1db7 : crc << 1;
  return crc >>> 0;
});

export function crcOfBlock(block: Uint8Array): number {
  let crc = 0xffff_ffff;
  for (const octet of block) crc = ((crc << 8) ^ (TABLE[((crc >>> 24) ^ octet) & 0xff] ?? 0)) >>> 0;
  return ~crc >>> 0;
}

/** CRC of all blocks so far with one more. */
export const joinedCrc = (sofar: number, block: number): number => (((sofar << 1) | (sofar >>> 31)) ^ block) >>> 0;
