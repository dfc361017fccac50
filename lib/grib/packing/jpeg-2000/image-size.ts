/** Image and tile size, marker segment SIZ (A.5.1). */
import type { StreamFault } from '../stream-fault.ts';
import { type Area, type CellGrid, cellsOver, columnsOf, isEmpty, rowsOf } from './area.ts';
import { faultAt, isFault, leftOut } from './faults.ts';
import { MARKER, readSegment, tooShort } from './markers.ts';
import { word16, word32 } from './words.ts';

/** Image of one component of unsigned samples. */
export interface ImageSize {
  /** On the reference grid, which is the grid of the samples. */
  readonly image: Area;
  /** Columns and rows from the tile origin, so that tile grids are anchored at 0. */
  readonly tiles: CellGrid;
  readonly tileOriginColumnIndex: number;
  readonly tileOriginRowIndex: number;
  /** Bits of a sample, 1 to 31. */
  readonly depthBits: number;
}

const BODY_OCTETS = 36;
const MOST_DEPTH_BITS = 31;

/** Reads SIZ at an index. Refuses other than one component, signed or deeper than 31 bits, and another number of samples. */
export function readImageSize(
  stream: Uint8Array,
  at: { readonly markerIndex: number; readonly sampleCount: number },
): { readonly size: ImageSize; readonly endIndex: number } | StreamFault {
  const segment = readSegment(stream, at.markerIndex);
  if (isFault(segment)) return segment;
  if (segment.markerCode !== MARKER.SIZ) return faultAt(at.markerIndex, 'The header has no image size.', 'SIZ, FF51');
  const short = tooShort(segment, BODY_OCTETS);
  if (short !== null) return short;
  const first = segment.bodyIndex;
  const refusal = refusedComponent(stream, first + 34) ?? refusedDepth(stream, first + 36);
  if (refusal !== null) return refusal;
  const [toColumnIndex = 0, toRowIndex = 0, fromColumnIndex = 0, fromRowIndex = 0] = words(stream, first + 2);
  const image = { fromColumnIndex, toColumnIndex, fromRowIndex, toRowIndex };
  const sampleCount = columnsOf(image) * rowsOf(image);
  if (sampleCount !== at.sampleCount || sampleCount === 0) {
    const what = `The image has ${columnsOf(image)} columns and ${rowsOf(image)} rows.`;
    return faultAt(first + 2, what, `${at.sampleCount} samples in all`);
  }
  const tiling = readTiling(stream, first + 18, image);
  if (isFault(tiling)) return tiling;
  const depthBits = ((stream[first + 36] ?? 0) & 0x7f) + 1;
  return { size: { image, ...tiling, depthBits }, endIndex: segment.endIndex };
}

/** Four numbers of four octets. */
const words = (stream: Uint8Array, index: number): readonly number[] =>
  [0, 4, 8, 12].map((offset) => word32(stream, index + offset));

function refusedComponent(stream: Uint8Array, index: number): StreamFault | null {
  const componentCount = word16(stream, index);
  return componentCount === 1 ? null : faultAt(index, `The image has ${componentCount} components.`, 'one component');
}

function refusedDepth(stream: Uint8Array, index: number): StreamFault | null {
  const code = stream[index] ?? 0;
  if (code > 0x7f) return leftOut(index, 'signed samples');
  if (code >= MOST_DEPTH_BITS) {
    return faultAt(index, `The samples have ${code + 1} bits.`, `1 to ${MOST_DEPTH_BITS} bits`);
  }
  const isSpread = stream[index + 1] !== 1 || stream[index + 2] !== 1;
  return isSpread ? leftOut(index + 1, 'a sub-sampled component') : null;
}

type Tiling = Pick<ImageSize, 'tiles' | 'tileOriginColumnIndex' | 'tileOriginRowIndex'>;

/** XTsiz, YTsiz, XTOsiz, YTOsiz; equations B-3 to B-5. */
function readTiling(stream: Uint8Array, index: number, image: Area): Tiling | StreamFault {
  const [columnCount = 0, rowCount = 0, tileOriginColumnIndex = 0, tileOriginRowIndex = 0] = words(stream, index);
  const fromOrigin = {
    fromColumnIndex: image.fromColumnIndex - tileOriginColumnIndex,
    toColumnIndex: image.toColumnIndex - tileOriginColumnIndex,
    fromRowIndex: image.fromRowIndex - tileOriginRowIndex,
    toRowIndex: image.toRowIndex - tileOriginRowIndex,
  };
  const isApart =
    fromOrigin.fromColumnIndex < 0 ||
    fromOrigin.fromRowIndex < 0 ||
    fromOrigin.fromColumnIndex >= columnCount ||
    fromOrigin.fromRowIndex >= rowCount;
  if (isApart || isEmpty(fromOrigin)) {
    return faultAt(
      index,
      `The first tile, ${columnCount} x ${rowCount}, does not meet the image.`,
      'a tile at its corner',
    );
  }
  return { tiles: cellsOver(fromOrigin, { columnCount, rowCount }), tileOriginColumnIndex, tileOriginRowIndex };
}
