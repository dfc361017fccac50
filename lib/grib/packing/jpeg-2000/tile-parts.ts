/** Tile-parts: finds the packets of each tile in the code-stream (A.4, A.2 figures A.2 to A.4). */
import type { StreamFault } from '../stream-fault.ts';
import { faultAt, isFault } from './faults.ts';
import { hex, MARKER, readSegment, tooShort } from './markers.ts';
import { type Parameters, SILENT, withSegment } from './parameters.ts';
import { word16, word32 } from './words.ts';

/** A run of octets of the stream, positions from 0. */
export interface OctetRun {
  readonly startIndex: number;
  readonly endIndex: number;
}

/** One tile: what its headers say, and where its packets are. */
export interface Tile {
  readonly tileIndex: number;
  /** Of its first SOT. */
  readonly markerIndex: number;
  readonly parameters: Parameters;
  readonly bodies: readonly OctetRun[];
}

interface TilePart {
  readonly tileIndex: number;
  readonly markerIndex: number;
  readonly parameters: Parameters;
  readonly body: OctetRun;
}

/**
 * Collects the tile-parts from the first SOT on, up to EOC or the end of the stream.
 *
 * @returns the tiles in the order of their numbers; `tileCount` of them, or a fault
 */
export function collectTiles(
  stream: Uint8Array,
  from: { readonly markerIndex: number; readonly tileCount: number },
): readonly Tile[] | StreamFault {
  const tiles = new Map<number, Tile>();
  let markerIndex = from.markerIndex;
  while (markerIndex < stream.length && word16(stream, markerIndex) !== MARKER.EOC) {
    const part = readTilePart(stream, { markerIndex, tileCount: from.tileCount }, tiles);
    if (isFault(part)) return part;
    const known = tiles.get(part.tileIndex) ?? { ...part, bodies: [] };
    tiles.set(part.tileIndex, { ...known, parameters: part.parameters, bodies: [...known.bodies, part.body] });
    markerIndex = part.body.endIndex;
  }
  if (tiles.size < from.tileCount) {
    const what = `The code-stream ends after ${tiles.size} of ${from.tileCount} tiles.`;
    return faultAt(markerIndex, what, 'a tile-part of every tile');
  }
  return [...tiles.values()].toSorted((one, other) => one.tileIndex - other.tileIndex);
}

/** SOT, A.4.2. Octets of the segment after its length. */
const SOT_BODY_OCTETS = 8;

function readTilePart(
  stream: Uint8Array,
  from: { readonly markerIndex: number; readonly tileCount: number },
  tiles: ReadonlyMap<number, Tile>,
): TilePart | StreamFault {
  const { markerIndex } = from;
  const segment = readSegment(stream, markerIndex);
  if (isFault(segment)) return segment;
  if (segment.markerCode !== MARKER.SOT) {
    return faultAt(markerIndex, `${hex(segment.markerCode)} stands where a tile-part is due.`, 'SOT, FF90');
  }
  const short = tooShort(segment, SOT_BODY_OCTETS);
  if (short !== null) return short;
  const tileIndex = word16(stream, segment.bodyIndex);
  if (tileIndex >= from.tileCount) {
    return faultAt(segment.bodyIndex, `A part of tile ${tileIndex}.`, `0 to ${from.tileCount - 1}`);
  }
  const partIndex = stream[segment.bodyIndex + 6] ?? 0;
  const dueIndex = tiles.get(tileIndex)?.bodies.length ?? 0;
  if (partIndex !== dueIndex) {
    return faultAt(segment.bodyIndex + 6, `Part ${partIndex} of tile ${tileIndex}.`, `part ${dueIndex}`);
  }
  const header = readTileHeader(stream, segment.endIndex, tiles.get(tileIndex)?.parameters ?? SILENT);
  if (isFault(header)) return header;
  const lengthOctets = word32(stream, segment.bodyIndex + 2);
  const endIndex = lengthOctets === 0 ? endOfStream(stream) : Math.min(stream.length, markerIndex + lengthOctets);
  if (endIndex < header.bodyIndex) {
    const what = `The tile-part declares ${lengthOctets} octets.`;
    return faultAt(segment.bodyIndex + 2, what, `at least ${header.bodyIndex - markerIndex} octets, its header`);
  }
  const body = { startIndex: header.bodyIndex, endIndex };
  return { tileIndex, markerIndex, parameters: header.parameters, body };
}

/** Marker segments up to SOD. */
function readTileHeader(
  stream: Uint8Array,
  startIndex: number,
  before: Parameters,
): { readonly parameters: Parameters; readonly bodyIndex: number } | StreamFault {
  let parameters = before;
  let markerIndex = startIndex;
  while (word16(stream, markerIndex) !== MARKER.SOD) {
    const segment = readSegment(stream, markerIndex);
    if (isFault(segment)) return segment;
    const next = withSegment(parameters, stream, segment);
    if (isFault(next)) return next;
    parameters = next;
    markerIndex = segment.endIndex;
  }
  return { parameters, bodyIndex: markerIndex + 2 };
}

/** Where the last tile-part ends when it does not say its length: before EOC, if there is one. */
const endOfStream = (stream: Uint8Array): number =>
  stream.length >= 2 && word16(stream, stream.length - 2) === MARKER.EOC ? stream.length - 2 : stream.length;
