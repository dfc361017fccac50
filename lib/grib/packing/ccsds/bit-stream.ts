/** Bits of a stream, most significant first, at any position and never past the end unnoticed. */

export class BitStream {
  readonly view: DataView;
  readonly lengthOctets: number;
  /** Octet in which the next bit stands, from 0, and its place in the octet, 0 (most significant) to 7. */
  octetIndex = 0;
  bitIndex = 0;
  /** True once more bits were taken than there are; those missing read as zeros. */
  isPastEnd = false;

  constructor(bytes: Uint8Array) {
    this.view = new DataView(bytes.buffer, bytes.byteOffset, bytes.length);
    this.lengthOctets = bytes.length;
  }

  /** An unsigned number of 1 to 32 bits. */
  take(widthBits: number): number {
    const word = next32(this);
    skip(this, widthBits);
    return word >>> (32 - widthBits);
  }

  /** Zeros before the next one, which is taken too. Gives up where they are more than `mostCount`, or the stream ends. */
  takeZeros(mostCount: number): number {
    let count = 0;
    for (;;) {
      const zeroCount = Math.clz32(next32(this));
      count += zeroCount;
      skip(this, Math.min(zeroCount + 1, 32));
      if (zeroCount < 32 || count > mostCount || this.isPastEnd) return count;
    }
  }

  /** Drops the rest of an octet that was begun. */
  alignToOctet(): void {
    if (this.bitIndex > 0) skip(this, 8 - this.bitIndex);
  }
}

/** The next 32 bits, zeros after the end. */
function next32({ view, octetIndex, bitIndex, lengthOctets }: BitStream): number {
  if (octetIndex + 5 <= lengthOctets) {
    return (view.getUint32(octetIndex) << bitIndex) | (view.getUint8(octetIndex + 4) >>> (8 - bitIndex));
  }
  let word = 0;
  for (let i = 0; i < 5 && octetIndex + i < lengthOctets; i++) {
    const shiftBits = 24 - 8 * i + bitIndex;
    const octet = view.getUint8(octetIndex + i);
    word |= shiftBits >= 0 ? octet << shiftBits : octet >>> -shiftBits;
  }
  return word;
}

function skip(bits: BitStream, widthBits: number): void {
  const bitIndex = bits.bitIndex + widthBits;
  bits.octetIndex += bitIndex >>> 3;
  bits.bitIndex = bitIndex & 7;
  if (bits.octetIndex * 8 + bits.bitIndex > bits.lengthOctets * 8) bits.isPastEnd = true;
}
