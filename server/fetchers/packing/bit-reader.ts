/** Bits from the highest of each octet on. */
export class BitReader {
  readonly #octets: Uint8Array;
  readonly #tooShort: () => Error;
  #at = 0;
  #held = 0;
  #heldBits = 0;

  /** @param tooShort what is thrown where the octets end too early */
  constructor(octets: Uint8Array, tooShort: () => Error) {
    this.#octets = octets;
    this.#tooShort = tooShort;
  }

  /** The next 1 to 24 bits as a number. */
  read(bitCount: number): number {
    while (this.#heldBits < bitCount) {
      const octet = this.#octets[this.#at++];
      if (octet === undefined) throw this.#tooShort();
      this.#held = ((this.#held & 0xff_ffff) << 8) | octet;
      this.#heldBits += 8;
    }
    this.#heldBits -= bitCount;
    return (this.#held >>> this.#heldBits) & (2 ** bitCount - 1);
  }

  /** The next 32 bits, not negative. */
  read32(): number {
    return this.read(16) * 0x1_0000 + this.read(16);
  }

  /** Passes over the rest of an octet. */
  toOctet(): void {
    this.#heldBits -= this.#heldBits % 8;
  }

  isAtEnd(): boolean {
    return this.#heldBits === 0 && this.#at >= this.#octets.length;
  }
}
