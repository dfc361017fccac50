/**
 * Writes PNG images for tests by the definitions of ISO/IEC 15948: each row with a filter of its own, predicted from the
 * octets as they were before filtering (clause 9.2), compressed by zlib.
 */
import { deflateSync } from 'node:zlib';

export interface ImageToWrite {
  readonly widthCount: number;
  readonly depthBits: number;
  readonly colourTypeCode: number;
  readonly interlaceCode?: number;
  /** Octets of each row, unfiltered. */
  readonly rows: readonly (readonly number[])[];
  /** Filter of each row, 0 to 4; the first again after the last. */
  readonly filters: readonly number[];
  /** Octets of a point, at least 1. */
  readonly pointOctets: number;
  /** Octets per IDAT chunk. */
  readonly chunkOctets?: number;
}

export function writePng(image: ImageToWrite): Uint8Array {
  const filtered = image.rows.flatMap((row, y) => {
    const filter = image.filters[y % image.filters.length] ?? 0;
    const above = image.rows[y - 1] ?? row.map(() => 0);
    return [
      filter,
      ...row.map((octet, x) => (octet - predicted(filter, { row, above, x, pointOctets: image.pointOctets })) & 255),
    ];
  });
  const data = deflateSync(Uint8Array.from(filtered));
  const header = [
    ...octets4(image.widthCount),
    ...octets4(image.rows.length),
    image.depthBits,
    image.colourTypeCode,
    0,
    0,
    image.interlaceCode ?? 0,
  ];
  const pieceOctets = image.chunkOctets ?? data.length;
  const pieces = Array.from({ length: Math.ceil(data.length / pieceOctets) }, (_, i) =>
    chunk('IDAT', [...data.subarray(i * pieceOctets, (i + 1) * pieceOctets)]),
  );
  const signature = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
  return Uint8Array.from([...signature, ...chunk('IHDR', header), ...pieces.flat(), ...chunk('IEND', [])]);
}

interface Neighbours {
  readonly row: readonly number[];
  readonly above: readonly number[];
  readonly x: number;
  readonly pointOctets: number;
}

/** Table 9.1, with a = left, b = above, c = above left. */
function predicted(filter: number, { row, above, x, pointOctets }: Neighbours): number {
  const [a, b, c] = [row[x - pointOctets] ?? 0, above[x] ?? 0, above[x - pointOctets] ?? 0];
  if (filter === 0) return 0;
  if (filter === 1) return a;
  if (filter === 2) return b;
  if (filter === 3) return Math.floor((a + b) / 2);
  const estimate = a + b - c;
  const [best] = [a, b, c].toSorted((one, other) => Math.abs(estimate - one) - Math.abs(estimate - other));
  return best ?? 0;
}

const octets4 = (n: number): number[] => [n >>> 24, (n >>> 16) & 255, (n >>> 8) & 255, n & 255];

/** The check value is left 0: it guards against lines of transmission, and zlib has a check of its own. */
const chunk = (type: string, content: readonly number[]): number[] => [
  ...octets4(content.length),
  ...Array.from(type, (letter) => letter.charCodeAt(0)),
  ...content,
  ...octets4(0),
];
