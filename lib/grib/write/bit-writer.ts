/** Runs of unsigned numbers of equal width into octets, most significant bit first. */

/** Octets filled bit by bit. */
export interface BitSink {
  readonly octets: Uint8Array;
  /** Bits written so far. */
  readonly usedBits: number;
}

/** A sink with room for `capacityBits`, rounded up to octets. */
export const bitSink = (capacityBits: number): { octets: Uint8Array; usedBits: number } => ({
  octets: new Uint8Array(Math.ceil(capacityBits / 8)),
  usedBits: 0,
});

/** Appends one number of up to 32 bits. */
export function putBits(sink: { octets: Uint8Array; usedBits: number }, value: number, widthBits: number): void {
  const { octets } = sink;
  let leftBits = widthBits;
  let atBit = sink.usedBits;
  while (leftBits > 0) {
    const freeBits = 8 - (atBit & 7);
    const takenBits = freeBits < leftBits ? freeBits : leftBits;
    const piece = (value >>> (leftBits - takenBits)) & ((1 << takenBits) - 1);
    const octetIndex = Math.floor(atBit / 8);
    octets[octetIndex] = (octets[octetIndex] ?? 0) | (piece << (freeBits - takenBits));
    atBit += takenBits;
    leftBits -= takenBits;
  }
  sink.usedBits = atBit;
}

/** Goes on at the next whole octet. */
export function padToOctet(sink: { octets: Uint8Array; usedBits: number }): void {
  sink.usedBits = Math.ceil(sink.usedBits / 8) * 8;
}

/** Bits needed for a whole number; 0 for 0. */
export const bitsNeeded = (value: number): number => (value <= 0 ? 0 : Math.floor(Math.log2(value)) + 1);
