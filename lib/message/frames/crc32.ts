/** x³²+x²⁶+x²³+x²²+x¹⁶+x¹²+x¹¹+x¹⁰+x⁸+x⁷+x⁵+x⁴+x²+x+1, lowest power first in the highest bit: IEEE 802.3, 3.2.9; RFC 1952, 8. */
const POLYNOMIAL_CODE = 0xedb88320;

const TABLE = Uint32Array.from({ length: 256 }, (_, octet) => {
  let value = octet;
  for (let bit = 0; bit < 8; bit++) value = (value & 1) === 1 ? (value >>> 1) ^ POLYNOMIAL_CODE : value >>> 1;
  return value >>> 0;
});

/** CRC-32 of the octets (IEEE 802.3; the one of gzip, RFC 1952). */
export function crc32(octets: Uint8Array): number {
  let value = 0xffffffff;
  for (const octet of octets) value = (value >>> 8) ^ (TABLE[(value ^ octet) & 0xff] ?? 0);
  return (value ^ 0xffffffff) >>> 0;
}
