/** JPEG 2000 code-streams, ISO/IEC 15444-1 (ITU-T T.800), as template 5.40 uses them. Places named in this folder are its. */
import type { StreamFault } from '../stream-fault.ts';
import { cellArea, mapEdges } from './area.ts';
import { findCodeStream, readMainHeader } from './code-stream.ts';
import { isFault } from './faults.ts';
import type { ImageSize } from './image-size.ts';
import { tileCoding } from './parameters.ts';
import { decodeTile, TileWorkshop } from './tile.ts';
import { collectTiles, type Tile } from './tile-parts.ts';

/**
 * Samples of the one component of an image, row by row, unsigned.
 *
 * Decodes both wavelets, all progression orders, any number of tiles, tile-parts and layers, and all styles of
 * code-blocks of part 1. Refuses by name: other than one component, signed samples, more than 31 bits, a region of
 * interest, changes of the progression order, packed packet headers, and the extensions of other parts.
 *
 * @param stream a code-stream, or a JP2 file around one; may be cut, damaged or hostile
 * @param limits `sampleCount`: columns times rows of the image, checked before memory is taken; `into`: room for so many
 *   samples, which are returned in it
 * @returns as many samples as declared, 0 to 2^bits − 1; or the fault, when a single octet of a packet is missing
 */
export function decodeJpeg2000(
  stream: Uint8Array,
  limits: { readonly sampleCount: number; readonly into?: Int32Array },
): Int32Array | StreamFault {
  const startIndex = findCodeStream(stream);
  if (typeof startIndex !== 'number') return startIndex;
  const header = readMainHeader(stream, { startIndex, sampleCount: limits.sampleCount });
  if (isFault(header)) return header;
  const { size } = header;
  const tileCount = size.tiles.columnCount * size.tiles.rowCount;
  const tiles = collectTiles(stream, { markerIndex: header.endIndex, tileCount });
  if (isFault(tiles)) return tiles;
  const samples = limits.into?.fill(0) ?? new Int32Array(limits.sampleCount);
  const workshop = new TileWorkshop();
  for (const tile of tiles) {
    const coding = tileCoding(header.parameters, tile.parameters, tile);
    if (isFault(coding)) return coding;
    const area = areaOfTile(size, tile);
    const fault = decodeTile({ stream, tile, coding, area, size }, workshop, samples);
    if (fault !== null) return fault;
  }
  return samples;
}

/** Equations B-7 to B-10. */
function areaOfTile({ image, tiles, tileOriginColumnIndex, tileOriginRowIndex }: ImageSize, { tileIndex }: Tile) {
  const fromOrigin = mapEdges(
    image,
    (edge) => edge - tileOriginColumnIndex,
    (edge) => edge - tileOriginRowIndex,
  );
  return mapEdges(
    cellArea(fromOrigin, tiles, tileIndex),
    (edge) => edge + tileOriginColumnIndex,
    (edge) => edge + tileOriginRowIndex,
  );
}
