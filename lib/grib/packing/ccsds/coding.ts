/** Template 5.42: how the samples of a field were coded. */
import type { StreamFault } from '../stream-fault.ts';

/** Octets 20 and 22 to 25 of Section 5. */
export interface CcsdsCoding {
  /** Octet 20: bits of a sample, 1 to 32. Fields of 0 bits have no stream. */
  readonly bitsPerValue: number;
  /** Octet 22: CCSDS compression options mask. */
  readonly optionMaskCode: number;
  /** Octet 23: samples of a block. */
  readonly blockSampleCount: number;
  /** Octets 24-25: blocks of a reference sample interval. */
  readonly intervalBlockCount: number;
}

/** What is wrong with Section 5; `octet` counts in that section. */
export type CodingFault = StreamFault;

/** Bits of the options mask. 2 and 4 say how the encoder held samples in memory, 64 which block sizes it let pass. */
const SIGNED = 1;
const PREPROCESSED = 8;
const RESTRICTED = 16;
const PADDED = 32;
const UNDEFINED = 128;

/** Widest sample; also the widest the restricted set of options is made for. */
const WIDEST_BITS = 32;
const WIDEST_RESTRICTED_BITS = 4;
const MOST_INTERVAL_BLOCKS = 4096;
const MOST_BLOCK_SAMPLES = 254;

/** The coding as the decoder uses it. */
export interface Options {
  /** Bits of the option identifier at the head of each block. */
  readonly idBits: number;
  /** Identifier of a block without compression; those between it and 0 split their samples. */
  readonly rawIdCode: number;
  readonly bitsPerValue: number;
  readonly blockSampleCount: number;
  readonly intervalBlockCount: number;
  /** Samples are differences from a prediction, mapped to whole numbers from 0. */
  readonly isPreprocessed: boolean;
  /** Each interval ends on a whole octet. */
  readonly isPadded: boolean;
}

const has = (coding: CcsdsCoding, flag: number): boolean => (coding.optionMaskCode & flag) !== 0;

/** Options of a coding in which `codingFault` finds no fault (CCSDS 121.0-B, table 5-1: option identification key). */
export function optionsOf(coding: CcsdsCoding): Options {
  const idBits = idBitsOf(coding.bitsPerValue, has(coding, RESTRICTED));
  return {
    idBits,
    rawIdCode: 2 ** idBits - 1,
    bitsPerValue: coding.bitsPerValue,
    blockSampleCount: coding.blockSampleCount,
    intervalBlockCount: coding.intervalBlockCount,
    isPreprocessed: has(coding, PREPROCESSED),
    isPadded: has(coding, PADDED),
  };
}

/** The restricted set concerns narrow samples only; wider ones are coded the same with and without the flag. */
function idBitsOf(sampleBits: number, isRestricted: boolean): number {
  if (sampleBits > 16) return 5;
  if (sampleBits > 8) return 4;
  if (!isRestricted) return 3;
  return sampleBits > 2 ? 2 : 1;
}

/** First fault of the coding, or null. Refuses signed samples: see `signedSamples`. */
export function codingFault(coding: CcsdsCoding): CodingFault | null {
  return widthFault(coding) ?? maskFault(coding) ?? blockFault(coding);
}

function widthFault({ bitsPerValue }: CcsdsCoding): CodingFault | null {
  if (bitsPerValue >= 1 && bitsPerValue <= WIDEST_BITS) return null;
  return { octet: 20, what: `Samples are declared ${bitsPerValue} bits wide.`, expected: `1 to ${WIDEST_BITS} bits` };
}

function maskFault(coding: CcsdsCoding): CodingFault | null {
  const { bitsPerValue, optionMaskCode } = coding;
  if (has(coding, SIGNED)) return signedSamples(optionMaskCode);
  if (has(coding, UNDEFINED)) {
    return {
      octet: 22,
      what: `The CCSDS compression options mask is ${optionMaskCode}; its bit of value ${UNDEFINED} has no meaning.`,
      expected: 'a mask below 128',
    };
  }
  if (!has(coding, RESTRICTED) || bitsPerValue <= WIDEST_RESTRICTED_BITS || bitsPerValue > 8) return null;
  return {
    octet: 22,
    what: `The restricted set of options (${RESTRICTED} in mask ${optionMaskCode}) is declared for ${bitsPerValue} bits.`,
    expected: `samples of 1 to ${WIDEST_RESTRICTED_BITS} bits with this set`,
  };
}

/**
 * Packed numbers of a field are not negative, so signed samples have no agreed meaning: the reader most in use returns some
 * of them as negative numbers modulo 2^8, 2^16 or 2^32, whatever their width.
 */
const signedSamples = (optionMaskCode: number): CodingFault => ({
  octet: 22,
  what: `The samples are declared to be signed (${SIGNED} in CCSDS compression options mask ${optionMaskCode}).`,
  expected: 'samples without a sign, as packed values are',
});

/**
 * The standard has blocks of 8, 16, 32 and 64 samples. Encoders told not to enforce it (64 in the mask) write any even number;
 * it must be even because the second extension codes pairs.
 */
function blockFault({ blockSampleCount, intervalBlockCount }: CcsdsCoding): CodingFault | null {
  if (blockSampleCount < 2 || blockSampleCount > MOST_BLOCK_SAMPLES || blockSampleCount % 2 !== 0) {
    const expected = `an even number from 2 to ${MOST_BLOCK_SAMPLES}`;
    return { octet: 23, what: `Blocks are declared to have ${blockSampleCount} samples.`, expected };
  }
  if (intervalBlockCount >= 1 && intervalBlockCount <= MOST_INTERVAL_BLOCKS) return null;
  return {
    octet: 24,
    what: `The reference sample interval is declared to have ${intervalBlockCount} blocks.`,
    expected: `1 to ${MOST_INTERVAL_BLOCKS}`,
  };
}
