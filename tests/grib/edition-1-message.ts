/** A small message of edition 1 from literal octets: 3 × 2 points, 8 bit, SST of centre 7; and changes to it. */

/** Section 1, 28 octets: table 2, centre 7, parameter 80, surface, 2026-05-27T12:00Z, unit hour, P1 6, P2 0, indicator 0. */
const PRODUCT = [0, 0, 28, 2, 7, 81, 255, 0x80, 80, 1, 0, 0, 26, 5, 27, 12, 0, 1, 6, 0, 0, 0, 0, 0, 21, 0, 0, 1];
/** Section 2, 32 octets: 3 columns from 178° E, 2 rows from 30° S to 29° S, step 1°, rows northward. */
const GRID = [
  0, 0, 32, 0, 255, 0, 0, 3, 0, 2, 0x80, 0x75, 0x30, 0x02, 0xb7, 0x50, 0x80, 0x80, 0x71, 0x48, 0x02, 0xbf, 0x20, 0x03,
  0xe8, 0x03, 0xe8, 0x40, 0, 0, 0, 0,
];
/** Section 4: E 0, R 0x43b7c000 (IBM: 2940), 8 bit, six numbers. */
const DATA = [0, 0, 17, 0, 0, 0, 0x43, 0xb7, 0xc0, 0x00, 8, 0, 1, 2, 3, 4, 250];

export interface Edition1Parts {
  readonly product?: readonly number[];
  readonly grid?: readonly number[] | null;
  readonly bitmap?: readonly number[];
  readonly data?: readonly number[];
  readonly end?: readonly number[];
}

/** `section` with octets replaced from `octet` on, counted from 1. */
export function replaced(section: readonly number[], octet: number, octets: readonly number[]): number[] {
  return section.map((value, i) => octets[i - (octet - 1)] ?? value);
}

export const edition1Product = PRODUCT;
export const edition1Grid = GRID;
export const edition1Data = DATA;

export function edition1Message(parts: Edition1Parts = {}): Uint8Array {
  const { product = PRODUCT, grid = GRID, bitmap = [], data = DATA, end = [0x37, 0x37, 0x37, 0x37] } = parts;
  const sections = [...product, ...(grid ?? []), ...bitmap, ...data, ...end];
  const total = 8 + sections.length;
  return Uint8Array.from([0x47, 0x52, 0x49, 0x42, total >> 16, (total >> 8) & 255, total & 255, 1, ...sections]);
}
