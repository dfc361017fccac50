/** Bits of a packet header: most significant first; after an octet FF one bit is stuffed (B.10.1). */

export class PacketBits {
  readonly #bytes: Uint8Array;
  readonly #endIndex: number;
  #nextIndex: number;
  #octet = 0;
  #leftBits = 0;
  /** True once more bits were asked for than there are; they read as zeros. */
  isPastEnd = false;

  constructor(bytes: Uint8Array, startIndex: number) {
    this.#bytes = bytes;
    this.#endIndex = bytes.length;
    this.#nextIndex = startIndex;
  }

  /** Octets not yet begun. */
  get heldOctets(): number {
    return this.#endIndex - this.#nextIndex;
  }

  readBit(): number {
    if (this.#leftBits === 0) this.#nextOctet();
    this.#leftBits -= 1;
    return (this.#octet >> this.#leftBits) & 1;
  }

  /** An unsigned number of up to 53 bits. */
  readNumber(widthBits: number): number {
    let value = 0;
    for (let i = 0; i < widthBits; i++) value = value * 2 + this.readBit();
    return value;
  }

  /** Ends the header and says at which index the next octet stands; a last octet FF is followed by one stuffed octet. */
  end(): number {
    if (this.#octet === 0xff) this.#nextOctet();
    return this.#nextIndex;
  }

  #nextOctet(): void {
    this.#leftBits = this.#octet === 0xff ? 7 : 8;
    if (this.#nextIndex >= this.#endIndex) {
      this.isPastEnd = true;
      this.#octet = 0;
      return;
    }
    this.#octet = this.#bytes[this.#nextIndex] ?? 0;
    this.#nextIndex += 1;
  }
}
