/** Template 5.42: samples in the adaptive entropy coding of CCSDS 121.0-B, lossless data compression. */
import type { LinearScale } from '../../scale.ts';
import type { StreamFault } from '../stream-fault.ts';
import { BitStream } from './bit-stream.ts';
import { readRawBlock, readSecondExtension, readSplitBlock, readZeroBlocks } from './blocks.ts';
import { type CcsdsCoding, codingFault, optionsOf } from './coding.ts';
import { Decoding } from './decoding.ts';
import { readRawBlockFast, readSecondExtensionFast, readSplitBlockFast } from './fast-blocks.ts';
import { Samples } from './samples.ts';

/**
 * Fills `values`, as many as are packed, with (sample · step + reference) · factor.
 *
 * @param stream Section 7 from octet 6
 * @param coding octets 20 and 22 to 25 of Section 5; a coding that `codingFault` refuses is a fault of octet 1
 * @returns null when all values are in place, else the fault: the stream ends before, or holds what no encoder writes. Octets
 *   behind the last value are not looked at.
 * @see CCSDS 121.0-B, Lossless Data Compression; WMO-No. 306, Volume I.2, templates 5.42 and 7.42
 */
export function unpackCcsds(
  stream: Uint8Array,
  coding: CcsdsCoding,
  output: { readonly values: Float64Array; readonly scale: LinearScale },
): StreamFault | null {
  const wrong = codingFault(coding);
  if (wrong !== null) return { ...wrong, octet: 1 };
  const options = optionsOf(coding);
  const decoding = new Decoding(new BitStream(stream), new Samples(output, options), options);
  while (decoding.samples.leftCount > 0) {
    const fault = readNext(decoding);
    if (fault !== null) return fault;
  }
  return null;
}

/** Reads one block, or a run of zero blocks. */
function readNext(decoding: Decoding): StreamFault | null {
  const { bits, samples, options } = decoding;
  const idCode = bits.take(options.idBits);
  const isSecondExtension = idCode === 0 && bits.take(1) === 1;
  readReference(decoding);
  const read = idCode === 0 && !isSecondExtension ? readZeroBlocks(decoding) : readOne(decoding, idCode);
  if (typeof read === 'object' && read !== null) return read;
  if (bits.isPastEnd) return decoding.ended();
  if (samples.isImpossible) {
    const expected = `0 to ${samples.greatest}, which ${options.bitsPerValue} bits hold`;
    return decoding.fault(`A number of the block of value ${samples.doneCount} is too great.`, expected);
  }
  decoding.blockIndex += read ?? 1;
  if (decoding.blockIndex >= options.intervalBlockCount) {
    decoding.blockIndex = 0;
    if (options.isPadded) bits.alignToOctet();
  }
  return null;
}

/** The first block of an interval begins with a sample as it is, from which the others are predicted. */
function readReference(decoding: Decoding): void {
  const { bits, samples, options } = decoding;
  decoding.fromIndex = options.isPreprocessed && decoding.blockIndex === 0 ? 1 : 0;
  if (decoding.fromIndex === 1) samples.put(bits.take(options.bitsPerValue));
}

/** A block that is not of zeros. */
function readOne(decoding: Decoding, idCode: number): StreamFault | null {
  if (idCode === 0) return readSecondExtensionFast(decoding) ? null : readSecondExtension(decoding);
  if (idCode === decoding.options.rawIdCode) return readRawBlockFast(decoding) ? null : readRawBlock(decoding);
  const k = idCode - 1;
  return readSplitBlockFast(decoding, k) ? null : readSplitBlock(decoding, k);
}
