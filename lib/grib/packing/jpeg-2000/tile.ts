/** One tile: packets → code-blocks → coefficients → samples. */
import type { StreamFault } from '../stream-fault.ts';
import { type Area, cellArea, columnsOf, rowsOf } from './area.ts';
import { runPasses, SegmentOctets } from './block-passes.ts';
import { CodeBlockDecoder } from './code-block.ts';
import type { CodeBlocks } from './code-blocks.ts';
import { BLOCK_STYLE } from './coding-style.ts';
import { faultAt, isFault } from './faults.ts';
import type { ImageSize } from './image-size.ts';
import { type PacketFault, readPackets } from './packets.ts';
import type { TileCoding } from './parameters.ts';
import { type Plane, storeWhole, storeWide } from './plane.ts';
import type { Tile } from './tile-parts.ts';
import { layOutTile, type PrecinctBand, type TileStructure } from './tile-structure.ts';
import { synthesize53, waveletMemory } from './wavelet-53.ts';
import { filter53, filter97, synthesizeWide } from './wavelet-wide.ts';

/** Memory that the tiles of an image use one after another. */
export class TileWorkshop {
  readonly decoder = new CodeBlockDecoder();
  readonly segment = new SegmentOctets();
}

export interface TileSource {
  readonly stream: Uint8Array;
  readonly tile: Tile;
  readonly coding: TileCoding;
  /** On the reference grid. */
  readonly area: Area;
  readonly size: ImageSize;
}

/** Decodes a tile into its place among the samples of the image; returns null, or the fault. */
export function decodeTile(source: TileSource, workshop: TileWorkshop, samples: Int32Array): StreamFault | null {
  const { tile, coding, area, size } = source;
  const octets = gather(source.stream, tile);
  const { markerIndex } = tile;
  const { depthBits } = size;
  const structure = layOutTile({ area, coding, depthBits, markerIndex, mostPacketsCount: octets.length });
  if (isFault(structure)) return structure;
  const blocks = readPackets(octets, structure, coding);
  if ('faultIndex' in blocks) return packetFault(tile, blocks);
  const isWhole = columnsOf(area) === columnsOf(size.image) && rowsOf(area) === rowsOf(size.image);
  const plane = planeFor(source, isWhole ? samples : null);
  const content = { octets, structure, blocks, plane };
  if (!decodeBlocks(source, workshop, content)) {
    return faultAt(markerIndex, 'A code-block of the tile lacks its segmentation symbol.', 'the symbol 1010');
  }
  synthesize(source, content);
  toSamples(source, plane, samples);
  return null;
}

/** The packets of all parts of a tile in one run. */
function gather(stream: Uint8Array, { bodies }: Tile): Uint8Array {
  const [only] = bodies;
  if (bodies.length === 1 && only !== undefined) return stream.subarray(only.startIndex, only.endIndex);
  const gathered = new Uint8Array(bodies.reduce((sum, { startIndex, endIndex }) => sum + endIndex - startIndex, 0));
  let length = 0;
  for (const { startIndex, endIndex } of bodies) {
    gathered.set(stream.subarray(startIndex, endIndex), length);
    length += endIndex - startIndex;
  }
  return gathered;
}

/** A fault in the gathered packets, at its place in the stream. */
function packetFault({ bodies, markerIndex }: Tile, { faultIndex, what, expected }: PacketFault): StreamFault {
  let before = 0;
  for (const { startIndex, endIndex } of bodies) {
    if (faultIndex <= before + endIndex - startIndex) return faultAt(startIndex + faultIndex - before, what, expected);
    before += endIndex - startIndex;
  }
  return faultAt(markerIndex, what, expected);
}

/**
 * Deepest samples that the 5/3 wavelet leaves inside 32 bits: sub-bands may reach eight times the range of the samples
 * (the filters' sums of absolute values, 2 for each high-pass and 1.5 for each low-pass step), and two are added.
 */
const MOST_WHOLE_BITS = 27;

interface TileContent {
  readonly octets: Uint8Array;
  readonly structure: TileStructure;
  readonly blocks: CodeBlocks;
  readonly plane: Plane;
}

/** Coefficients of the tile, in the memory of the samples where that is possible. */
function planeFor({ area, coding, size }: TileSource, samples: Int32Array | null): Plane {
  const columnCount = columnsOf(area);
  const count = columnCount * rowsOf(area);
  const isWide = !coding.component.isReversible || size.depthBits > MOST_WHOLE_BITS;
  return { columnCount, numbers: isWide ? new Float64Array(count) : (samples ?? new Int32Array(count)) };
}

function decodeBlocks(source: TileSource, workshop: TileWorkshop, content: TileContent): boolean {
  for (const { precincts } of content.structure.levels) {
    for (const { bands } of precincts) {
      for (const part of bands) if (!decodeBand(source, workshop, { ...content, part })) return false;
    }
  }
  return true;
}

/** The code-blocks of one sub-band in one precinct; false when one of them lacks its segmentation symbol. */
function decodeBand(
  { coding }: TileSource,
  { decoder, segment }: TileWorkshop,
  content: TileContent & { readonly part: PrecinctBand },
): boolean {
  const { blocks, octets, part, plane } = content;
  const { band } = part;
  const { blockStyleCode, isReversible } = coding.component;
  const isCausal = (blockStyleCode & BLOCK_STYLE.verticallyCausal) !== 0;
  for (let i = 0; i < part.blocks.columnCount * part.blocks.rowCount; i++) {
    const blockIndex = part.firstBlockIndex + i;
    if (blocks.firstPieceOf(blockIndex) < 0) continue;
    const area = cellArea(part.area, part.blocks, i);
    const { orientation } = band;
    decoder.begin({ columnCount: columnsOf(area), rowCount: rowsOf(area), orientation, isCausal });
    if (!runPasses(decoder, segment, { blocks, blockIndex, octets, blockStyleCode })) return false;
    const column = band.planeColumnIndex + area.fromColumnIndex - band.area.fromColumnIndex;
    const row = band.planeRowIndex + area.fromRowIndex - band.area.fromRowIndex;
    const startIndex = row * plane.columnCount + column;
    const { numbers, columnCount } = plane;
    if (numbers instanceof Int32Array) storeWhole(decoder, { numbers, columnCount }, startIndex);
    else
      storeWide(decoder, { numbers, columnCount }, { startIndex, stepWeight: isReversible ? null : band.stepWeight });
  }
  return true;
}

/** IDWT: level by level, from the coarsest on (F.3.1). */
function synthesize({ area, coding }: TileSource, { structure, plane }: TileContent): void {
  const { numbers, columnCount } = plane;
  const levels = structure.levels.slice(1);
  if (numbers instanceof Int32Array) {
    const memory = waveletMemory(area);
    for (const level of levels) synthesize53({ numbers, columnCount }, level.area, memory);
  } else {
    const filter = coding.component.isReversible ? filter53 : filter97;
    for (const level of levels) synthesizeWide({ numbers, columnCount }, level.area, filter);
  }
}

/** Level shift (G.1.2), and what lossy coding carried beyond the range of the samples brought back into it. */
function toSamples({ area, size }: TileSource, plane: Plane, samples: Int32Array): void {
  const { image, depthBits } = size;
  const firstIndex =
    (area.fromRowIndex - image.fromRowIndex) * columnsOf(image) + area.fromColumnIndex - image.fromColumnIndex;
  for (let row = 0; row < rowsOf(area); row++) {
    const fromIndex = row * plane.columnCount;
    const line = plane.numbers.subarray(fromIndex, fromIndex + plane.columnCount);
    const toIndex = firstIndex + row * columnsOf(image);
    if (line instanceof Int32Array) shiftWhole(line, samples, { toIndex, depthBits });
    else shiftWide(line, samples, { toIndex, depthBits });
  }
}

interface Shift {
  readonly toIndex: number;
  readonly depthBits: number;
}

/** `line` may be part of `samples`. */
function shiftWhole(line: Int32Array, samples: Int32Array, { toIndex, depthBits }: Shift): void {
  const shift = 1 << (depthBits - 1);
  const greatest = 2 * shift - 1;
  for (let i = 0; i < line.length; i++) {
    const value = ((line[i] ?? 0) + shift) | 0;
    samples[toIndex + i] = value < 0 ? 0 : value > greatest ? greatest : value;
  }
}

function shiftWide(line: Float64Array, samples: Int32Array, { toIndex, depthBits }: Shift): void {
  const shift = 2 ** (depthBits - 1);
  const greatest = 2 ** depthBits - 1;
  for (let i = 0; i < line.length; i++) {
    samples[toIndex + i] = Math.min(greatest, Math.max(0, Math.round(line[i] ?? 0) + shift));
  }
}
