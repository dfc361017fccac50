/**
 * Numbers of a few bits each as text, six bits a character.
 *
 * The alphabet is that of base64url (RFC 4648 §5) with `+` for `_`: the underscore of ASCII is another code in GSM 03.38.
 */
const PACKED_ALPHABET = 'ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-+';

const BITS_PER_CHARACTER = 6;

/** Takes numbers in, gives text out. */
export class PackedWriter {
  readonly #bits: number[] = [];

  /** Writes the lowest `bitCount` bits of a whole number, the highest first. */
  write(code: number, bitCount: number): void {
    if (!Number.isInteger(code) || code < 0 || code >= 2 ** bitCount)
      throw new Error(`${code} does not fit ${bitCount} bits`);
    for (let bit = bitCount - 1; bit >= 0; bit--) this.#bits.push(Math.floor(code / 2 ** bit) % 2);
  }

  /** The text so far, the last character filled up with zeros. */
  text(): string {
    let text = '';
    for (let first = 0; first < this.#bits.length; first += BITS_PER_CHARACTER) {
      let code = 0;
      for (let bit = first; bit < first + BITS_PER_CHARACTER; bit++) code = code * 2 + (this.#bits[bit] ?? 0);
      text += PACKED_ALPHABET[code] ?? '';
    }
    return text;
  }
}

/** Gives the numbers of a text back; past its end, and at a strange character, it gives null and stays null. */
export class PackedReader {
  readonly #text: string;
  #next = 0;
  #isSpent = false;

  constructor(text: string) {
    this.#text = text;
  }

  read(bitCount: number): number | null {
    let code = 0;
    for (let bit = 0; bit < bitCount && !this.#isSpent; bit++) code = code * 2 + this.#bit();
    return this.#isSpent ? null : code;
  }

  /** Whether nothing is left but the zeros that fill up the last character. */
  isAtEnd(): boolean {
    const leftBits = this.#text.length * BITS_PER_CHARACTER - this.#next;
    return !this.#isSpent && leftBits < BITS_PER_CHARACTER && (leftBits === 0 || this.read(leftBits) === 0);
  }

  #bit(): number {
    const letter = this.#text[Math.floor(this.#next / BITS_PER_CHARACTER)];
    const code = letter === undefined ? -1 : PACKED_ALPHABET.indexOf(letter);
    if (code < 0) this.#isSpent = true;
    const bit = BITS_PER_CHARACTER - 1 - (this.#next % BITS_PER_CHARACTER);
    this.#next += 1;
    return Math.floor(code / 2 ** bit) % 2;
  }
}
