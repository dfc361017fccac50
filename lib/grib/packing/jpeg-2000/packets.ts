/** Reads all packets of a tile: headers, and where the octets of the code-blocks are (B.9, B.10). */
import { CodeBlocks } from './code-blocks.ts';
import { MARKER } from './markers.ts';
import { PacketBits } from './packet-bits.ts';
import { type HeaderFault, readBandHeader } from './packet-header.ts';
import type { TileCoding } from './parameters.ts';
import { type PacketPlan, packetsInOrder } from './progression.ts';
import type { TileStructure } from './tile-structure.ts';
import { word16 } from './words.ts';

/** A fault, with its index among the octets of the tile's packets. */
export interface PacketFault extends HeaderFault {
  readonly faultIndex: number;
}

const SOP_OCTETS = 6;
const EPH_OCTETS = 2;

/** Reads the packets of a tile from their octets. Refuses a tile that lacks any octet of any packet. */
export function readPackets(
  octets: Uint8Array,
  structure: TileStructure,
  coding: TileCoding,
): CodeBlocks | PacketFault {
  const blocks = new CodeBlocks(structure.blockCount);
  let index = 0;
  for (const packet of packetsInOrder(structure, coding.packets)) {
    const end = readPacket(octets, index, { packet, blocks, blockStyleCode: coding.component.blockStyleCode });
    if (typeof end !== 'number') return { ...end, faultIndex: index };
    index = end;
  }
  return blocks;
}

interface PacketSource {
  readonly packet: PacketPlan;
  readonly blocks: CodeBlocks;
  readonly blockStyleCode: number;
}

/** Index after the packet. Markers around the header are optional whatever the header of the stream says (A.8). */
function readPacket(octets: Uint8Array, startIndex: number, source: PacketSource): number | HeaderFault {
  const { packet, blocks, blockStyleCode } = source;
  // A header that begins with FF 91 would begin with a marker, which bit stuffing rules out.
  const headerIndex = word16(octets, startIndex) === MARKER.SOP ? startIndex + SOP_OCTETS : startIndex;
  const bits = new PacketBits(octets, headerIndex);
  const firstPieceIndex = blocks.pieceCount;
  const isEmpty = bits.readBit() === 0;
  for (const part of isEmpty ? [] : packet.precinct.bands) {
    const fault = readBandHeader(bits, part, { blocks, at: { layerIndex: packet.layerIndex, blockStyleCode } });
    if (fault !== null) return fault;
  }
  const endOfHeader = bits.end();
  if (bits.isPastEnd) return { what: 'The packets end before the last packet.', expected: 'all packets of the tile' };
  const bodyIndex = word16(octets, endOfHeader) === MARKER.EPH ? endOfHeader + EPH_OCTETS : endOfHeader;
  const endIndex = blocks.placePieces(firstPieceIndex, bodyIndex);
  return endIndex <= octets.length
    ? endIndex
    : { what: `A packet lacks ${endIndex - octets.length} octets.`, expected: 'the whole packet' };
}
