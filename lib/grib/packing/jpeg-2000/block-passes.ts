/** All passes of one code-block, codeword segment by codeword segment (D.4 to D.6, table D.8). */
import type { CodeBlockDecoder } from './code-block.ts';
import { type CodeBlocks, isRawPass, passesToTermination } from './code-blocks.ts';
import { BLOCK_STYLE } from './coding-style.ts';
import { CONTEXT } from './context-tables.ts';
import { passRawRefinement, passRawSignificance, RawBits } from './raw-passes.ts';

/** The octets of one codeword segment, gathered from its pieces, with FF FF behind; the memory is used again. */
export class SegmentOctets {
  octets: Uint8Array = new Uint8Array(8192);
  lengthOctets = 0;

  clear(): void {
    this.lengthOctets = 0;
  }

  append(source: Uint8Array, fromIndex: number, lengthOctets: number): void {
    const neededOctets = this.lengthOctets + lengthOctets + 2;
    if (neededOctets > this.octets.length) {
      const larger = new Uint8Array(2 * neededOctets);
      larger.set(this.octets.subarray(0, this.lengthOctets));
      this.octets = larger;
    }
    // A plain loop: most pieces have a few dozen octets, for which a view costs more than the copy.
    const { octets, lengthOctets: first } = this;
    for (let i = 0; i < lengthOctets; i++) octets[first + i] = source[fromIndex + i] ?? 0;
    this.lengthOctets = first + lengthOctets;
    octets[this.lengthOctets] = 0xff;
    octets[this.lengthOctets + 1] = 0xff;
  }
}

interface BlockSource {
  readonly blocks: CodeBlocks;
  readonly blockIndex: number;
  /** Packets of the tile. */
  readonly octets: Uint8Array;
  readonly blockStyleCode: number;
}

/** Runs all passes of a code-block that was begun; false when a segmentation symbol is not what it must be (D.5). */
export function runPasses(decoder: CodeBlockDecoder, segment: SegmentOctets, source: BlockSource): boolean {
  const { blocks, blockIndex, blockStyleCode } = source;
  const planeCount = blocks.planeCounts[blockIndex] ?? 0;
  let piece = blocks.firstPieceOf(blockIndex);
  let passIndex = 0;
  while (piece >= 0) {
    const mostCount = passesToTermination(blockStyleCode, passIndex);
    let passCount = 0;
    segment.clear();
    for (; piece >= 0 && passCount < mostCount; piece = blocks.nextPieceOf(piece)) {
      segment.append(source.octets, blocks.startOf(piece), blocks.lengthOf(piece));
      passCount += blocks.passesOf(piece);
    }
    const passes = { passIndex, passCount, planeCount, blockStyleCode };
    if (isRawPass(blockStyleCode, passIndex)) runRawSegment(decoder, segment, passes);
    else if (!runCodedSegment(decoder, segment, passes)) return false;
    passIndex += passCount;
  }
  return true;
}

interface SegmentPasses {
  /** First pass of the segment. */
  readonly passIndex: number;
  readonly passCount: number;
  readonly planeCount: number;
  readonly blockStyleCode: number;
}

/** 0 significance, 1 refinement, 2 clean-up; the first pass of a code-block is a clean-up. */
const kindOf = (passIndex: number): number => (passIndex + 2) % 3;
/** Bit-plane of a pass, 0 for the least significant. */
const planeOf = (passIndex: number, planeCount: number): number => planeCount - 1 - Math.floor((passIndex + 2) / 3);

function runCodedSegment(decoder: CodeBlockDecoder, segment: SegmentOctets, passes: SegmentPasses): boolean {
  const { planeCount, blockStyleCode } = passes;
  decoder.mq.start(segment.octets, 0);
  for (let i = 0; i < passes.passCount; i++) {
    const passIndex = passes.passIndex + i;
    const planeIndex = planeOf(passIndex, planeCount);
    const kind = kindOf(passIndex);
    if (kind === 0) decoder.passSignificance(planeIndex);
    else if (kind === 1) decoder.passRefinement(planeIndex);
    else decoder.passCleanUp(planeIndex);
    const hasSymbol = kind === 2 && (blockStyleCode & BLOCK_STYLE.segmentationSymbols) !== 0;
    if (hasSymbol && readSymbol(decoder) !== SEGMENTATION_SYMBOL) return false;
    if ((blockStyleCode & BLOCK_STYLE.resetContexts) !== 0) decoder.resetContexts();
  }
  return true;
}

/** D.5. */
const SEGMENTATION_SYMBOL = 0b1010;

const readSymbol = ({ mq }: CodeBlockDecoder): number =>
  [0, 1, 2, 3].reduce((symbol) => 2 * symbol + mq.decode(CONTEXT.uniform), 0);

function runRawSegment(decoder: CodeBlockDecoder, segment: SegmentOctets, passes: SegmentPasses): void {
  const bits = new RawBits(segment.octets.subarray(0, segment.lengthOctets));
  for (let i = 0; i < passes.passCount; i++) {
    const passIndex = passes.passIndex + i;
    const planeIndex = planeOf(passIndex, passes.planeCount);
    if (kindOf(passIndex) === 0) passRawSignificance(decoder, bits, planeIndex);
    else passRawRefinement(decoder, bits, planeIndex);
    if ((passes.blockStyleCode & BLOCK_STYLE.resetContexts) !== 0) decoder.resetContexts();
  }
}
