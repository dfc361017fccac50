/** Damage inside the data of JPEG 2000 and PNG: sizes, tiles, styles, chunks, and images that unfold to much more. */
import { crc32, deflateSync } from 'node:zlib';
import type { Chance, Damage } from './chance.ts';
import { type NumberPlace, readNumber, sectionsOf } from './header-places.ts';
import { joined, replaced, writeNumber } from './octets.ts';

/** Octets of Section 7 before the stream. */
const STREAM_INDEX = 5;

interface Stream {
  readonly startIndex: number;
  readonly endIndex: number;
}

function streamOf(bytes: Uint8Array): Stream | null {
  const data = sectionsOf(bytes).find(({ sectionNumber }) => sectionNumber === 7);
  if (bytes[7] !== 2 || data === undefined) return null;
  return { startIndex: data.startIndex + STREAM_INDEX, endIndex: data.startIndex + data.lengthOctets };
}

const isPng = (bytes: Uint8Array, { startIndex }: Stream): boolean =>
  readNumber(bytes, { startIndex, lengthOctets: 4 }) === 0x8950_4e47;
const isJpeg2000 = (bytes: Uint8Array, { startIndex }: Stream): boolean =>
  readNumber(bytes, { startIndex, lengthOctets: 4 }) === 0xff4f_ff51;

/** Fields of marker segments from the octet after the marker on: SIZ, COD, QCD, SOT (ISO/IEC 15444-1, annex A). */
const MARKER_FIELDS: Readonly<Record<number, string>> = {
  0xff51: '2 2 4 4 4 4 4 4 4 4 2 1 1 1',
  0xff52: '2 1 1 2 1 1 1 1 1 1 1 1',
  0xff5c: '2 1 1 1 1 1',
  0xff90: '2 2 4 1 1',
};

/** Numbers of the headers of a code-stream. */
function jpegPlaces(bytes: Uint8Array, { startIndex, endIndex }: Stream): NumberPlace[] {
  const places: NumberPlace[] = [];
  let index = startIndex + 2;
  while (index + 4 <= endIndex) {
    const markerCode = readNumber(bytes, { startIndex: index, lengthOctets: 2 });
    if (markerCode < 0xff00 || markerCode === 0xff93) break;
    places.push({ startIndex: index, lengthOctets: 2 });
    let fieldIndex = index + 2;
    for (const lengthOctets of (MARKER_FIELDS[markerCode] ?? '2').split(' ').map(Number)) {
      if (fieldIndex + lengthOctets <= endIndex) places.push({ startIndex: fieldIndex, lengthOctets });
      fieldIndex += lengthOctets;
    }
    index += 2 + readNumber(bytes, { startIndex: index + 2, lengthOctets: 2 });
  }
  return places;
}

interface Chunk {
  readonly type: string;
  readonly startIndex: number;
  readonly dataOctets: number;
}

function pngChunks(bytes: Uint8Array, { startIndex, endIndex }: Stream): Chunk[] {
  const chunks: Chunk[] = [];
  let index = startIndex + 8;
  while (index + 12 <= endIndex) {
    const dataOctets = readNumber(bytes, { startIndex: index, lengthOctets: 4 });
    if (index + 12 + dataOctets > endIndex) break;
    const type = Buffer.from(bytes.subarray(index + 4, index + 8)).toString('latin1');
    chunks.push({ type, startIndex: index, dataOctets });
    index += 12 + dataOctets;
  }
  return chunks;
}

/** The check value of a chunk made right (ISO/IEC 15948, clause 5.5), so that no reader stops at it. */
function putCheck(bytes: Uint8Array, { startIndex, dataOctets }: Chunk): void {
  const checked = bytes.subarray(startIndex + 4, startIndex + 8 + dataOctets);
  writeNumber(bytes, { startIndex: startIndex + 8 + dataOctets, lengthOctets: 4 }, crc32(checked));
}

/** Columns and rows in the header of an image, with one tile for all of it; other data are left. */
export function setImageSize(bytes: Uint8Array, size: { readonly columns: number; readonly rows: number }): Uint8Array {
  const stream = streamOf(bytes);
  if (stream === null) return bytes;
  const pair = [size.columns, size.rows].map((count) => Math.min(count, 2 ** 32 - 1));
  const putPair = (index: number): void =>
    pair.forEach((count, i) => writeNumber(bytes, { startIndex: index + 4 * i, lengthOctets: 4 }, count));
  if (isJpeg2000(bytes, stream) && stream.endIndex > stream.startIndex + 40) {
    putPair(stream.startIndex + 8);
    putPair(stream.startIndex + 24);
  } else if (isPng(bytes, stream)) {
    const [header] = pngChunks(bytes, stream);
    if (header === undefined || header.dataOctets < 13) return bytes;
    putPair(header.startIndex + 8);
    putCheck(bytes, header);
  }
  return bytes;
}

function setNumber(bytes: Uint8Array, place: NumberPlace, { below, pick }: Chance): void {
  const coded = readNumber(bytes, place);
  const largest = 256 ** place.lengthOctets - 1;
  const half = (largest + 1) / 2;
  const value = pick([0, 1, 2, largest, largest - 1, half, half - 1, coded + 1, coded - 1, coded * 2, below(256)]);
  writeNumber(bytes, place, Math.min(largest, Math.max(0, value)));
}

/** A number of a JPEG 2000 header, or a field of a PNG chunk with its check value right. */
function setStreamNumbers(bytes: Uint8Array, chance: Chance): Uint8Array {
  const stream = streamOf(bytes);
  if (stream === null) return bytes;
  for (let left = 1 + chance.below(2); left > 0; left--) {
    const places = isJpeg2000(bytes, stream) ? jpegPlaces(bytes, stream) : [];
    if (isPng(bytes, stream)) setChunkNumber(bytes, stream, chance);
    else setNumber(bytes, places.length > 0 ? chance.pick(places) : octetOf(stream, chance), chance);
  }
  return bytes;
}

const octetOf = ({ startIndex, endIndex }: Stream, { below }: Chance): NumberPlace => ({
  startIndex: startIndex + below(Math.max(1, endIndex - startIndex)),
  lengthOctets: 1,
});

/** Width, height, depth, colour type, compression, filter and interlace of IHDR; the length and type of any chunk. */
function setChunkNumber(bytes: Uint8Array, stream: Stream, chance: Chance): void {
  const chunks = pngChunks(bytes, stream);
  if (chunks.length === 0) return;
  const chunk = chance.pick(chunks);
  const startIndex = chunk.startIndex;
  const ofHeader = [8, 12, 16, 17, 18, 19, 20].map((index) => ({
    startIndex: startIndex + index,
    lengthOctets: index < 16 ? 4 : 1,
  }));
  const ofAny = [
    { startIndex, lengthOctets: 4 },
    { startIndex: startIndex + 4, lengthOctets: 1 },
  ];
  setNumber(bytes, chance.pick(chunk.type === 'IHDR' ? [...ofHeader, ...ofAny] : ofAny), chance);
  putCheck(bytes, chunk);
}

/** Octets of zeros that a bomb unfolds to. */
const UNFOLDED_OCTETS = [2 ** 16, 2 ** 22, 2 ** 26];
const bombs = new Map<number, Uint8Array>();

function bombOf(unfoldedOctets: number): Uint8Array {
  const made = bombs.get(unfoldedOctets) ?? deflateSync(new Uint8Array(unfoldedOctets), { level: 9 });
  bombs.set(unfoldedOctets, made);
  return made;
}

/** The compressed data of a PNG image replaced by few octets that unfold to very many, a thousand for each. */
function putBomb(bytes: Uint8Array, { pick }: Chance): Uint8Array {
  const stream = streamOf(bytes);
  if (stream === null || !isPng(bytes, stream)) return bytes;
  const data = pngChunks(bytes, stream).find(({ type }) => type === 'IDAT');
  if (data === undefined) return bytes;
  const bomb = bombOf(pick(UNFOLDED_OCTETS));
  const chunk = joined(new Uint8Array(4), Buffer.from('IDAT'), bomb, new Uint8Array(4));
  writeNumber(chunk, { startIndex: 0, lengthOctets: 4 }, bomb.length);
  putCheck(chunk, { type: 'IDAT', startIndex: 0, dataOctets: bomb.length });
  const made = replaced(bytes, { from: data.startIndex, to: data.startIndex + 12 + data.dataOctets }, chunk);
  const grownOctets = made.length - bytes.length;
  const lengthPlace = { startIndex: stream.startIndex - STREAM_INDEX, lengthOctets: 4 };
  writeNumber(made, lengthPlace, readNumber(bytes, lengthPlace) + grownOctets);
  return made;
}

export const PAYLOAD_DAMAGES: readonly (readonly [name: string, damage: Damage, weight: number])[] = [
  ['numbers of the stream set', setStreamNumbers, 4],
  ['bomb put in', putBomb, 1],
];
