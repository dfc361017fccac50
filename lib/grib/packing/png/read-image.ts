/** The image of a PNG stream (ISO/IEC 15948), as far as GRIB uses it: grey, RGB or RGBA, not interlaced. */
import { inflateSync } from 'node:zlib';
import { READ_AHEAD_OCTETS } from '../../bits.ts';
import { joined } from '../../write/octets.ts';
import type { StreamFault } from '../stream-fault.ts';
import { unfilter } from './unfilter.ts';

/** Samples of all rows, each row on a whole octet, most significant bit first. */
export interface PngImage {
  readonly widthCount: number;
  readonly heightCount: number;
  /** Bits of one point: depth times channels, 1 to 32. */
  readonly pointBits: number;
  readonly rowOctets: number;
  readonly rows: Uint8Array;
}

const SIGNATURE = [0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a];
/** Channels of each colour type that GRIB uses: grey, RGB, RGBA (note to template 7.41: 24 bits are RGB, 32 RGBA). */
const CHANNELS: ReadonlyMap<number, number> = new Map([
  [0, 1],
  [2, 3],
  [6, 4],
]);
const DEPTHS_BITS = [1, 2, 4, 8, 16];

/** IHDR. */
interface Header {
  readonly widthCount: number;
  readonly heightCount: number;
  readonly depthBits: number;
  readonly colourTypeCode: number;
  readonly interlaceCode: number;
}

/** Header and compressed data. */
interface Chunks {
  readonly header: Header;
  readonly data: Uint8Array;
}

/** The image, which must have exactly `pointCount` points: nothing is allocated for another. */
export function readPngImage(stream: Uint8Array, pointCount: number): PngImage | StreamFault {
  const chunks = readChunks(stream);
  if ('expected' in chunks) return chunks;
  const { header } = chunks;
  const wrong = faultOf(header, pointCount);
  if (wrong !== null) return wrong;
  const pointBits = header.depthBits * (CHANNELS.get(header.colourTypeCode) ?? 1);
  const rowOctets = Math.ceil((header.widthCount * pointBits) / 8);
  const filteredOctets = (rowOctets + 1) * header.heightCount;
  const filtered = inflate(chunks.data, filteredOctets);
  if (filtered === null || filtered.length !== filteredOctets) return notInflated(filtered, filteredOctets);
  const rows = unfilter(filtered, { rowOctets, pointOctets: Math.max(1, pointBits >> 3) });
  if (rows === null) return { octet: 1, what: 'A row has a filter above 4.', expected: 'filter 0 to 4' };
  return { widthCount: header.widthCount, heightCount: header.heightCount, pointBits, rowOctets, rows };
}

/** Follows the chunks to IEND, or to the end of the stream where that is missing. */
function readChunks(stream: Uint8Array): Chunks | StreamFault {
  const view = new DataView(stream.buffer, stream.byteOffset, stream.byteLength);
  if (stream.length < 8 || SIGNATURE.some((octet, i) => stream[i] !== octet)) {
    return { octet: 1, what: 'The stream does not begin with the PNG signature.', expected: '89 50 4E 47 0D 0A 1A 0A' };
  }
  let header: Header | null = null;
  const data: Uint8Array[] = [];
  for (let at = 8; at + 12 <= stream.length;) {
    const lengthOctets = view.getUint32(at);
    const type = String.fromCharCode(...stream.subarray(at + 4, at + 8));
    if (type === 'IEND') break;
    if (at + 12 + lengthOctets > stream.length) {
      return { octet: at + 1, what: `A chunk of ${lengthOctets} octets leaves the stream.`, expected: 'whole chunks' };
    }
    if (type === 'IHDR' && lengthOctets >= 13) header = readHeader(view, at + 8);
    if (type === 'IDAT') data.push(stream.subarray(at + 8, at + 8 + lengthOctets));
    at += 12 + lengthOctets;
  }
  if (header === null) return { octet: 9, what: 'There is no IHDR chunk.', expected: 'IHDR first' };
  const [only] = data;
  return { header, data: only !== undefined && data.length === 1 ? only : joined(data) };
}

const readHeader = (view: DataView, startIndex: number): Header => ({
  widthCount: view.getUint32(startIndex),
  heightCount: view.getUint32(startIndex + 4),
  depthBits: view.getUint8(startIndex + 8),
  colourTypeCode: view.getUint8(startIndex + 9),
  interlaceCode: view.getUint8(startIndex + 12),
});

function faultOf(header: Header, pointCount: number): StreamFault | null {
  const { widthCount, heightCount, depthBits, colourTypeCode, interlaceCode } = header;
  if (widthCount * heightCount !== pointCount) {
    return {
      octet: 17,
      what: `The image has ${widthCount} × ${heightCount} points.`,
      expected: `${pointCount} points`,
    };
  }
  if (!CHANNELS.has(colourTypeCode) || !DEPTHS_BITS.includes(depthBits)) {
    const what = `The image has colour type ${colourTypeCode} of ${depthBits} bits.`;
    return { octet: 25, what, expected: 'grey (0), RGB (2) or RGBA (6) of 1, 2, 4, 8 or 16 bits' };
  }
  if (colourTypeCode !== 0 && depthBits !== 8) {
    return { octet: 25, what: `The image has colours of ${depthBits} bits.`, expected: 'colours of 8 bits' };
  }
  return interlaceCode === 0 ? null : { octet: 29, what: 'The image is interlaced.', expected: 'no interlacing' };
}

/** Least size of a piece that zlib hands out. */
const LEAST_PIECE_OCTETS = 64;

/** Null when the data are damaged or longer than the image. Handed out in one piece, since pieces would be held twice. */
function inflate(data: Uint8Array, mostOctets: number): Uint8Array | null {
  try {
    const chunkSize = Math.max(LEAST_PIECE_OCTETS, mostOctets + READ_AHEAD_OCTETS);
    return inflateSync(data, { maxOutputLength: mostOctets, chunkSize });
  } catch {
    return null;
  }
}

const notInflated = (filtered: Uint8Array | null, expectedOctets: number): StreamFault => ({
  octet: 1,
  what:
    filtered === null
      ? 'The compressed data are damaged, or longer than the image.'
      : `The compressed data hold ${filtered.length} octets.`,
  expected: `${expectedOctets} octets of rows with their filters`,
});
