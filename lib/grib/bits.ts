/** Runs of unsigned numbers of equal width packed without gaps, most significant bit first. */

/** Widest number read, in bits; also the widest any supported packing may declare. */
export const WIDEST_BITS = 32;

/** A run of packed numbers inside a file. Positions count from 0. */
export interface BitRun {
  readonly bytes: Uint8Array;
  readonly startBitIndex: number;
  /** 0 to 32. A width of 0 stores nothing and reads as zeros. */
  readonly widthBits: number;
}

/** Widest number that four octets hold at any of the eight bit positions. */
const NARROW_BITS = 25;

/** Places of an array to be filled: from `fromIndex` up to `toIndex`, exclusive. */
interface IndexRange {
  readonly fromIndex: number;
  readonly toIndex: number;
}

/** Reads numbers into `into[fromIndex]` … `into[toIndex - 1]`. The caller has checked that the bits exist. */
export function readUnsigned(run: BitRun, into: Float64Array, range: IndexRange): void {
  const isOnOctet = run.startBitIndex % 8 === 0;
  if (run.widthBits === 0) into.fill(0, range.fromIndex, range.toIndex);
  else if (isOnOctet && run.widthBits === 8) readOctets(run, into, range);
  else if (isOnOctet && run.widthBits === 16) readOctetPairs(run, into, range);
  else if (run.widthBits <= NARROW_BITS) readNarrow(run, into, range);
  else readWide(run, into, range);
}

function readOctets(run: BitRun, into: Float64Array, range: IndexRange): void {
  const { bytes } = run;
  let octetIndex = run.startBitIndex / 8;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    into[i] = bytes[octetIndex] ?? 0;
    octetIndex += 1;
  }
}

function readOctetPairs(run: BitRun, into: Float64Array, range: IndexRange): void {
  const { bytes } = run;
  let octetIndex = run.startBitIndex / 8;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    into[i] = ((bytes[octetIndex] ?? 0) << 8) | (bytes[octetIndex + 1] ?? 0);
    octetIndex += 2;
  }
}

/** Widths to 25 bits: the four octets around a number as one 32-bit integer, shifted and masked. */
function readNarrow(run: BitRun, into: Float64Array, range: IndexRange): void {
  const { bytes, startBitIndex, widthBits } = run;
  const mask = (1 << widthBits) - 1;
  const firstOctetIndex = Math.floor(startBitIndex / 8);
  // Counted from the first octet, so that the bit operators see small integers in files of any size.
  let bitIndex = startBitIndex % 8;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    const octetIndex = firstOctetIndex + (bitIndex >>> 3);
    const word =
      ((bytes[octetIndex] ?? 0) << 24) |
      ((bytes[octetIndex + 1] ?? 0) << 16) |
      ((bytes[octetIndex + 2] ?? 0) << 8) |
      (bytes[octetIndex + 3] ?? 0);
    into[i] = (word >>> (32 - widthBits - (bitIndex & 7))) & mask;
    bitIndex += widthBits;
  }
}

/** Widths above 25 bits as two narrow halves: a number in doubles, since the bit operators end at 32 bits with a sign. */
function readWide(run: BitRun, into: Float64Array, range: IndexRange): void {
  const { bytes, widthBits } = run;
  const lowBits = 16;
  const highBits = widthBits - lowBits;
  const half = new Float64Array(1);
  const only = { fromIndex: 0, toIndex: 1 };
  let startBitIndex = run.startBitIndex;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    readNarrow({ bytes, startBitIndex, widthBits: highBits }, half, only);
    const high = half[0] ?? 0;
    readNarrow({ bytes, startBitIndex: startBitIndex + highBits, widthBits: lowBits }, half, only);
    into[i] = high * 65_536 + (half[0] ?? 0);
    startBitIndex += widthBits;
  }
}
