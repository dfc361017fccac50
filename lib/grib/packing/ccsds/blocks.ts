/** The four kinds of blocks, read with care: any width, any length, up to the last bit (CCSDS 121.0-B, sections 3.3 to 3.5 and 5.1). */
import type { StreamFault } from '../stream-fault.ts';
import type { Decoding } from './decoding.ts';
import { GREATEST_PAIR, pairFirsts, pairSeconds } from './pairs.ts';

/** Samples split in a quotient and a remainder of k bits: all quotients of the block, then all remainders. */
export function readSplitBlock(decoding: Decoding, k: number): StreamFault | null {
  const { bits, samples, options, quotients, fromIndex, toIndex } = decoding;
  const mostCount = Math.floor(samples.greatest / 2 ** k);
  const quotientsEndIndex = toIndex === fromIndex ? fromIndex : options.blockSampleCount;
  for (let i = fromIndex; i < quotientsEndIndex; i++) {
    const zeroCount = bits.takeZeros(mostCount);
    if (bits.isPastEnd) return decoding.ended();
    if (zeroCount > mostCount) {
      const expected = `at most ${mostCount} zeros in samples of ${options.bitsPerValue} bits split at ${k}`;
      return decoding.fault(`A fundamental sequence has ${zeroCount} zeros or more.`, expected);
    }
    quotients[i] = zeroCount;
  }
  for (let i = fromIndex; i < toIndex; i++) {
    samples.putCoded((quotients[i] ?? 0) * 2 ** k + (k === 0 ? 0 : bits.take(k)));
  }
  return null;
}

/** Samples as they are. */
export function readRawBlock({ bits, samples, options, fromIndex, toIndex }: Decoding): StreamFault | null {
  for (let i = fromIndex; i < toIndex; i++) samples.putCoded(bits.take(options.bitsPerValue));
  return null;
}

/** Pairs of small numbers, each pair one fundamental sequence. The reference sample takes the place of the first of its pair. */
export function readSecondExtension(decoding: Decoding): StreamFault | null {
  const { bits, samples, fromIndex, toIndex } = decoding;
  for (let i = fromIndex - (fromIndex % 2); i < toIndex; i += 2) {
    const pair = bits.takeZeros(GREATEST_PAIR);
    if (pair > GREATEST_PAIR) {
      return decoding.fault(`A pair of the second extension is coded ${pair}.`, `0 to ${GREATEST_PAIR}`);
    }
    if (i >= fromIndex) samples.putCoded(pairFirsts[pair] ?? 0);
    if (i + 1 < toIndex) samples.putCoded(pairSeconds[pair] ?? 0);
  }
  return null;
}

/** Blocks of a segment; runs of zero blocks end with it. */
const SEGMENT_BLOCKS = 64;
/** Zeros that stand for all blocks up to the end of the segment; fewer stand for one block more, more for as many blocks. */
const REST_OF_SEGMENT = 4;

/** One or more blocks of zeros. Returns how many. */
export function readZeroBlocks(decoding: Decoding): number | StreamFault {
  const { bits, samples, options, blockIndex, fromIndex } = decoding;
  const { blockSampleCount, intervalBlockCount } = options;
  const zeroCount = bits.takeZeros(SEGMENT_BLOCKS);
  if (bits.isPastEnd) return decoding.ended();
  const isRest = zeroCount === REST_OF_SEGMENT;
  const restCount = Math.min(intervalBlockCount - blockIndex, SEGMENT_BLOCKS - (blockIndex % SEGMENT_BLOCKS));
  const wantedCount = Math.ceil((fromIndex + samples.leftCount) / blockSampleCount);
  const blockCount = zeroCount > REST_OF_SEGMENT ? zeroCount : zeroCount + 1;
  const mostCount = Math.min(SEGMENT_BLOCKS, intervalBlockCount - blockIndex, wantedCount);
  if (!isRest && blockCount > mostCount) {
    return decoding.fault(`A run of ${blockCount} or more zero blocks is declared.`, `at most ${mostCount} blocks`);
  }
  const count = isRest ? restCount : blockCount;
  samples.putZeros(Math.min(count * blockSampleCount - fromIndex, samples.leftCount));
  return count;
}
