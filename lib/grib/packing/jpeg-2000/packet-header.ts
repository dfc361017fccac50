/** Packet headers: which code-blocks a packet adds to, how many passes, how many octets (B.10). */
import { type CodeBlocks, passesToTermination } from './code-blocks.ts';
import type { PacketBits } from './packet-bits.ts';
import type { PrecinctBand } from './tile-structure.ts';

/** What a header says that cannot be; words for a fault. */
export interface HeaderFault {
  readonly what: string;
  readonly expected: string;
}

/** Longest length field; no piece is longer than its stream. */
const MOST_LENGTH_BITS = 32;
/** Magnitude bit-planes that a number of 32 bits holds beside the half below the last plane. */
const MOST_PLANES = 31;

interface PacketPlace {
  readonly layerIndex: number;
  readonly blockStyleCode: number;
}

/** Reads one header that is not empty, for all code-blocks of one precinct and sub-band. */
export function readBandHeader(
  bits: PacketBits,
  part: PrecinctBand,
  into: { readonly blocks: CodeBlocks; readonly at: PacketPlace },
): HeaderFault | null {
  const { columnCount, rowCount } = part.blocks;
  const { blocks, at } = into;
  for (let rowIndex = 0; rowIndex < rowCount; rowIndex++) {
    for (let columnIndex = 0; columnIndex < columnCount; columnIndex++) {
      const fault = readBlockHeader(bits, part, { blocks, at, columnIndex, rowIndex });
      if (fault !== null) return fault;
      if (bits.isPastEnd) return { what: 'The packets end inside a packet header.', expected: 'the whole packet' };
    }
  }
  return null;
}

interface BlockPlace {
  readonly blocks: CodeBlocks;
  readonly at: PacketPlace;
  readonly columnIndex: number;
  readonly rowIndex: number;
}

function readBlockHeader(bits: PacketBits, part: PrecinctBand, place: BlockPlace): HeaderFault | null {
  const { blocks, at } = place;
  const blockIndex = part.firstBlockIndex + place.rowIndex * part.blocks.columnCount + place.columnIndex;
  const wasIncluded = (blocks.planeCounts[blockIndex] ?? 0) > 0;
  const isIncluded = wasIncluded
    ? bits.readBit() === 1
    : part.inclusion.read(bits, place, at.layerIndex + 1) <= at.layerIndex;
  if (!isIncluded) return null;
  if (!wasIncluded) {
    const { planeBits } = part.band;
    const planeCount = planeBits - part.emptyPlanes.read(bits, place, planeBits);
    if (planeCount < 1 || planeCount > MOST_PLANES) {
      const what = `A code-block of ${planeCount} bit-planes that hold something.`;
      return { what, expected: `1 to ${Math.min(planeBits, MOST_PLANES)} bit-planes` };
    }
    blocks.planeCounts[blockIndex] = planeCount;
  }
  return readPasses(bits, blockIndex, place);
}

/** Number of passes, then the length of what each codeword segment gains. */
function readPasses(bits: PacketBits, blockIndex: number, { blocks, at }: BlockPlace): HeaderFault | null {
  let leftCount = readPassCount(bits);
  let passIndex = blocks.passCounts[blockIndex] ?? 0;
  const mostCount = 3 * (blocks.planeCounts[blockIndex] ?? 0) - 2;
  if (passIndex + leftCount > mostCount) {
    return { what: `A code-block of ${passIndex + leftCount} passes.`, expected: `at most ${mostCount} passes` };
  }
  let lengthBits = blocks.lengthBits[blockIndex] ?? 0;
  while (lengthBits <= MOST_LENGTH_BITS && bits.readBit() === 1) lengthBits += 1;
  blocks.lengthBits[blockIndex] = lengthBits;
  while (leftCount > 0) {
    const passCount = Math.min(leftCount, passesToTermination(at.blockStyleCode, passIndex));
    // B.10.7.1: the field is wider by the whole part of the logarithm of the passes to the base two.
    const widthBits = lengthBits + (31 - Math.clz32(passCount));
    if (widthBits > MOST_LENGTH_BITS) return { what: `A length of ${widthBits} bits.`, expected: 'at most 32 bits' };
    const lengthOctets = bits.readNumber(widthBits);
    if (lengthOctets > bits.heldOctets) {
      return {
        what: `A code-block gains ${lengthOctets} octets.`,
        expected: `at most the ${bits.heldOctets} that follow`,
      };
    }
    blocks.addPiece(blockIndex, { lengthOctets, passCount });
    leftCount -= passCount;
    passIndex += passCount;
  }
  return null;
}

/** Table B.4. */
function readPassCount(bits: PacketBits): number {
  if (bits.readBit() === 0) return 1;
  if (bits.readBit() === 0) return 2;
  const upTo5 = bits.readNumber(2);
  if (upTo5 < 3) return 3 + upTo5;
  const upTo36 = bits.readNumber(5);
  return upTo36 < 31 ? 6 + upTo36 : 37 + bits.readNumber(7);
}
