/**
 * Blocks away from the end of the stream, of samples of up to 24 bits: almost all blocks of a forecast. The same as blocks.ts,
 * but several times as fast: positions are held in locals, fundamental sequences come from tables, and one load gives two
 * remainders. The loops below run once or twice for each value of a field, so what they share is written out.
 *
 * Each function reads a block and returns true; or it leaves the stream where it is and returns false, and the block must
 * be read with care.
 */
import type { BitStream } from './bit-stream.ts';
import type { Decoding } from './decoding.ts';
import { GREATEST_PAIR, pairFirsts, pairSeconds } from './pairs.ts';
import { WINDOW_BITS, WINDOW_CODES, windowLengths, windowPrefixes, windowQuotients } from './quotient-windows.ts';

/** Widest samples and remainders whose numbers stay small integers of the processor. */
const WIDEST_SAMPLE_BITS = 24;
const WIDEST_REMAINDER_BITS = 22;
/** Bits that a load of four octets gives at each of the eight bit positions. */
const LOADED_BITS = 25;
/** Octets that may be loaded beyond those of the block. */
const READ_AHEAD_OCTETS = 8;
/** Longest fundamental sequence that an octet holds. */
const GREATEST_QUOTIENT = 255;

/** A block split at k. */
export function readSplitBlockFast(decoding: Decoding, k: number): boolean {
  if (k > WIDEST_REMAINDER_BITS || !hasRoom(decoding, LOADED_BITS + k)) return false;
  const { fromIndex, options } = decoding;
  const sequences = { fromIndex, toIndex: options.blockSampleCount, mostCount: GREATEST_QUOTIENT };
  if (!readSequences(decoding, sequences)) return false;
  if (k === 0) putQuotients(decoding);
  else putWithRemainders(decoding, k);
  return true;
}

/** A block of pairs. */
export function readSecondExtensionFast(decoding: Decoding): boolean {
  if (!hasRoom(decoding, LOADED_BITS)) return false;
  const toIndex = decoding.options.blockSampleCount / 2;
  if (!readSequences(decoding, { fromIndex: 0, toIndex, mostCount: GREATEST_PAIR })) return false;
  putPairs(decoding);
  return true;
}

/** A block of samples as they are: remainders without quotients. */
export function readRawBlockFast(decoding: Decoding): boolean {
  const { bitsPerValue } = decoding.options;
  if (bitsPerValue > WIDEST_REMAINDER_BITS || !hasRoom(decoding, bitsPerValue)) return false;
  decoding.shortQuotients.fill(0);
  putWithRemainders(decoding, bitsPerValue);
  return true;
}

/** Whether the stream goes on for a block of samples of so many bits each, and loads need not look for its end. */
function hasRoom({ bits, options }: Decoding, mostBits: number): boolean {
  if (!options.isPreprocessed || options.bitsPerValue > WIDEST_SAMPLE_BITS) return false;
  return bits.octetIndex + blockOctets(options.blockSampleCount, mostBits) <= bits.lengthOctets;
}

const blockOctets = (blockSampleCount: number, mostBits: number): number =>
  ((blockSampleCount * mostBits) >>> 3) + READ_AHEAD_OCTETS;

/** Places of `shortQuotients` to be filled, and the most zeros that a sequence may have. */
interface Sequences {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly mostCount: number;
}

/** Fundamental sequences of a block. False, and the stream left where it is, when one is too long or the end too near. */
function readSequences(decoding: Decoding, { fromIndex, toIndex, mostCount }: Sequences): boolean {
  const { bits, shortQuotientsView: into } = decoding;
  const { view, octetIndex } = bits;
  // Held in locals: some module loaders turn each use of an imported name into a call.
  const [quotients, lengthsOf, prefixes] = [windowQuotients, windowLengths, windowPrefixes];
  let position = bits.bitIndex;
  let i = fromIndex;
  while (i < toIndex) {
    // A load is good for two table entries: 2 · 11 bits of 25.
    let word = view.getUint32(octetIndex + (position >>> 3)) << (position & 7);
    let window = word >>> (32 - WINDOW_BITS);
    let lengths = lengthsOf[window] ?? 0;
    into.setInt32(i, quotients[window] ?? 0, true);
    if (lengths === 0) {
      const zeroCount = longSequence(decoding, position);
      if (zeroCount > mostCount) return false;
      into.setUint8(i, zeroCount);
      i += 1;
      position += zeroCount + 1;
      continue;
    }
    if (i + (lengths & 7) < toIndex) {
      i += lengths & 7;
      position += lengths >>> 3;
      word <<= lengths >>> 3;
      window = word >>> (32 - WINDOW_BITS);
      lengths = lengthsOf[window] ?? 0;
      into.setInt32(i, quotients[window] ?? 0, true);
      if (i + (lengths & 7) < toIndex) {
        i += lengths & 7;
        position += lengths >>> 3;
        continue;
      }
    }
    // The entry reaches the end of the block: no more of it than that.
    position += prefixes[window * WINDOW_CODES + (toIndex - 1 - i)] ?? 0;
    break;
  }
  moveTo(bits, position);
  return true;
}

/** Zeros from a bit of the block on; one more than an octet holds where they are too many, or the end of the stream is too near. */
function longSequence({ bits, options }: Decoding, startBitIndex: number): number {
  const { view, octetIndex, lengthOctets } = bits;
  const restOctets = blockOctets(options.blockSampleCount, LOADED_BITS + WIDEST_REMAINDER_BITS);
  for (let count = 0; count <= GREATEST_QUOTIENT; count += LOADED_BITS) {
    const index = octetIndex + ((startBitIndex + count) >>> 3);
    if (index + restOctets > lengthOctets) return GREATEST_QUOTIENT + 1;
    const zeroCount = Math.clz32(view.getUint32(index) << ((startBitIndex + count) & 7));
    if (zeroCount < LOADED_BITS) return count + zeroCount;
  }
  return GREATEST_QUOTIENT + 1;
}

/** Moves on to a bit, counted from the first of the octet at hand. */
function moveTo(bits: BitStream, bitIndex: number): void {
  bits.octetIndex += bitIndex >>> 3;
  bits.bitIndex = bitIndex & 7;
}

/**
 * Sample from its prediction x and the mapped difference d, as `unmapped` in samples.ts. Returns -1, and from then on always
 * -1, for a difference greater than g, which no sample can have given.
 */
const unmappedSmall = (x: number, d: number, g: number): number => {
  const distance = (d + 1) >>> 1;
  // Negative as soon as one of the two is: below 0 or above g.
  if (((x - distance) | (g - x - distance)) < 0) return oneWay(x, d, g);
  return (x + ((d >>> 1) ^ -(d & 1))) | 0;
};

function oneWay(x: number, d: number, g: number): number {
  if (x < 0 || d > g) return -1;
  return x <= g - x ? d : g - d;
}

/** Puts quotients that have no remainders. */
function putQuotients({ samples, shortQuotients, fromIndex, toIndex }: Decoding): void {
  const { values } = samples;
  const { reference, step, factor } = samples.scale;
  const greatest = samples.greatest | 0;
  let x = samples.previous | 0;
  let o = samples.doneCount;
  for (let i = fromIndex; i < toIndex; i++) {
    x = unmappedSmall(x, shortQuotients[i] ?? 0, greatest);
    values[o] = (x * step + reference) * factor;
    o += 1;
  }
  samples.finish(x, o);
}

/** Reads remainders of k bits, 1 to 22, and puts quotients with them. */
function putWithRemainders({ bits, samples, shortQuotients, fromIndex, toIndex }: Decoding, k: number): void {
  const { view, octetIndex } = bits;
  const { values } = samples;
  const { reference, step, factor } = samples.scale;
  const greatest = samples.greatest | 0;
  const unusedBits = 32 - k;
  const pairsEndIndex = 2 * k <= LOADED_BITS ? toIndex - ((toIndex - fromIndex) & 1) : fromIndex;
  let position = bits.bitIndex;
  let x = samples.previous | 0;
  let o = samples.doneCount;
  let i = fromIndex;
  for (; i < pairsEndIndex; i += 2) {
    const word = view.getUint32(octetIndex + (position >>> 3)) << (position & 7);
    position += 2 * k;
    x = unmappedSmall(x, ((shortQuotients[i] ?? 0) << k) | (word >>> unusedBits), greatest);
    values[o] = (x * step + reference) * factor;
    x = unmappedSmall(x, ((shortQuotients[i + 1] ?? 0) << k) | ((word << k) >>> unusedBits), greatest);
    values[o + 1] = (x * step + reference) * factor;
    o += 2;
  }
  for (; i < toIndex; i++) {
    const word = view.getUint32(octetIndex + (position >>> 3)) << (position & 7);
    position += k;
    x = unmappedSmall(x, ((shortQuotients[i] ?? 0) << k) | (word >>> unusedBits), greatest);
    values[o] = (x * step + reference) * factor;
    o += 1;
  }
  moveTo(bits, position);
  samples.finish(x, o);
}

/** Puts pairs, each from one sequence; of the first pair only the second number where a reference sample took its place. */
function putPairs({ samples, shortQuotients, fromIndex, toIndex }: Decoding): void {
  const { values } = samples;
  const { reference, step, factor } = samples.scale;
  const [firsts, seconds] = [pairFirsts, pairSeconds];
  const greatest = samples.greatest | 0;
  let x = samples.previous | 0;
  let o = samples.doneCount;
  for (let i = 0; i < toIndex; i += 2) {
    const pair = shortQuotients[i >>> 1] ?? 0;
    if (i >= fromIndex) {
      x = unmappedSmall(x, firsts[pair] ?? 0, greatest);
      values[o] = (x * step + reference) * factor;
      o += 1;
    }
    if (i + 1 < toIndex) {
      x = unmappedSmall(x, seconds[pair] ?? 0, greatest);
      values[o] = (x * step + reference) * factor;
      o += 1;
    }
  }
  samples.finish(x, o);
}
