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

/**
 * Reads numbers into `into[fromIndex]` … `into[toIndex - 1]`. The caller has checked that the bits exist.
 */
export function readUnsigned(run: BitRun, into: Float64Array, range: { fromIndex: number; toIndex: number }): void {
  const { bytes, startBitIndex, widthBits } = run;
  if (widthBits === 0) into.fill(0, range.fromIndex, range.toIndex);
  else if (startBitIndex % 8 === 0 && widthBits === 8) readOctets(bytes, startBitIndex / 8, { into, ...range });
  else if (startBitIndex % 8 === 0 && widthBits === 16) readOctetPairs(bytes, startBitIndex / 8, { into, ...range });
  else if (widthBits <= 25) readNarrow(run, { into, ...range });
  else readWide(run, { into, ...range });
}

interface Target {
  readonly into: Float64Array;
  readonly fromIndex: number;
  readonly toIndex: number;
}

function readOctets(bytes: Uint8Array, startIndex: number, target: Target): void {
  const { into, fromIndex, toIndex } = target;
  for (let i = fromIndex, octetIndex = startIndex; i < toIndex; i++, octetIndex++) into[i] = bytes[octetIndex] ?? 0;
}

function readOctetPairs(bytes: Uint8Array, startIndex: number, target: Target): void {
  const { into, fromIndex, toIndex } = target;
  for (let i = fromIndex, octetIndex = startIndex; i < toIndex; i++, octetIndex += 2) {
    into[i] = ((bytes[octetIndex] ?? 0) << 8) | (bytes[octetIndex + 1] ?? 0);
  }
}

/**
 * Widths to 25 bits: up to 7 bits are held over, so that a number and the hold-over fit the 32-bit
 * integers of the bit operators; older bits fall off the top and are masked away.
 */
function readNarrow(run: BitRun, target: Target): void {
  const { bytes, startBitIndex, widthBits } = run;
  const { into, fromIndex, toIndex } = target;
  const mask = 2 ** widthBits - 1;
  let octetIndex = Math.floor(startBitIndex / 8);
  let heldBits = (8 - (startBitIndex % 8)) % 8;
  let held = heldBits === 0 ? 0 : (bytes[octetIndex++] ?? 0);
  for (let i = fromIndex; i < toIndex; i++) {
    while (heldBits < widthBits) {
      held = (held << 8) | (bytes[octetIndex++] ?? 0);
      heldBits += 8;
    }
    heldBits -= widthBits;
    into[i] = (held >>> heldBits) & mask;
  }
}

/** Widths above 25 bits as two narrow halves: a number in doubles, since the bit operators end at 32 bits with a sign. */
function readWide(run: BitRun, target: Target): void {
  const { bytes, widthBits } = run;
  const { into, fromIndex, toIndex } = target;
  const lowBits = 16;
  const highBits = widthBits - lowBits;
  const half = new Float64Array(1);
  const only = { into: half, fromIndex: 0, toIndex: 1 };
  let bitIndex = run.startBitIndex;
  for (let i = fromIndex; i < toIndex; i++) {
    readNarrow({ bytes, startBitIndex: bitIndex, widthBits: highBits }, only);
    const high = half[0] ?? 0;
    readNarrow({ bytes, startBitIndex: bitIndex + highBits, widthBits: lowBits }, only);
    into[i] = high * 65_536 + (half[0] ?? 0);
    bitIndex += widthBits;
  }
}
