/** Runs of unsigned numbers of equal width packed without gaps, most significant bit first. */
import type { SectionPlace } from './section.ts';

/** Widest number read, in bits; also the widest any supported packing may declare. */
export const WIDEST_BITS = 32;

/** Octets that may be read behind the last number; they change nothing but must be there. */
export const READ_AHEAD_OCTETS = 4;

/**
 * Views octets so that four may be read at each of them: the view reaches four octets further, into the end
 * mark of the message as a rule. Where the file ends before, the octets are copied and zeros put behind them.
 */
export function viewForRuns(bytes: Uint8Array, { startIndex, lengthOctets }: SectionPlace): DataView {
  const reachOctets = lengthOctets + READ_AHEAD_OCTETS;
  if (startIndex + reachOctets <= bytes.length) {
    return new DataView(bytes.buffer, bytes.byteOffset + startIndex, reachOctets);
  }
  const padded = new Uint8Array(reachOctets);
  padded.set(bytes.subarray(startIndex, startIndex + lengthOctets));
  return new DataView(padded.buffer);
}

/** A run of packed numbers in a view made by `viewForRuns`. Positions count from 0. */
export interface BitRun {
  readonly view: DataView;
  readonly startBitIndex: number;
  /** 0 to 32. A width of 0 stores nothing and reads as zeros. */
  readonly widthBits: number;
}

/** Widest number that four octets hold at any of the eight bit positions. */
const NARROW_BITS = 25;

/** Places of an array to be filled: from `fromIndex` up to `toIndex`, exclusive. */
export interface IndexRange {
  readonly fromIndex: number;
  readonly toIndex: number;
}

/** Reads numbers plus `addedCount` into `into[fromIndex]` … `into[toIndex - 1]`. The caller has checked that the bits exist. */
export function readRun(run: BitRun, into: Float64Array, range: IndexRange & { readonly addedCount: number }): void {
  const { view, startBitIndex, widthBits } = run;
  const { fromIndex, toIndex, addedCount } = range;
  if (widthBits === 0) into.fill(addedCount, fromIndex, toIndex);
  else if (widthBits > NARROW_BITS) readWide(run, into, range);
  else {
    const unusedBits = 32 - widthBits;
    let bitIndex = startBitIndex;
    for (let i = fromIndex; i < toIndex; i++) {
      into[i] = ((view.getUint32(bitIndex >>> 3) << (bitIndex & 7)) >>> unusedBits) + addedCount;
      bitIndex += widthBits;
    }
  }
}

/** Widths above 25 bits take a fifth octet. */
function readWide(run: BitRun, into: Float64Array, range: IndexRange & { readonly addedCount: number }): void {
  const { view, widthBits } = run;
  const { fromIndex, toIndex, addedCount } = range;
  const unusedBits = 32 - widthBits;
  let bitIndex = run.startBitIndex;
  for (let i = fromIndex; i < toIndex; i++) {
    const octetIndex = bitIndex >>> 3;
    const shiftBits = bitIndex & 7;
    const word = (view.getUint32(octetIndex) << shiftBits) | (view.getUint8(octetIndex + 4) >>> (8 - shiftBits));
    into[i] = (word >>> unusedBits) + addedCount;
    bitIndex += widthBits;
  }
}
