/** The MQ arithmetic decoder (Annex C). */
import { mqStates } from './mq-states.table.ts';

/**
 * A state as one number: Qe in bits 8 to 23, below it twice the row of table C.2 plus the more probable symbol.
 * The registers keep eight bits below the sixteen that Qe is compared with: the standard's C without its lowest octet,
 * which holds nothing in a decoder, so that all of it fits a positive 32-bit integer.
 */
const QE = 0xff_ff00;
const STATE_MASK = 0xff;
/** Qe in a state. */
export const QE_MASK = QE;
const HALF = 0x80_0000;
const REGISTER_BITS = 24;

const stateOf = (rowIndex: number, symbolCode: number): number =>
  ((mqStates[rowIndex]?.[0] ?? 0) << 8) | (2 * rowIndex + symbolCode);

/** The state after a more probable symbol by the low octet of the state before; from LESS on, after a less probable one. */
const nextStates = new Int32Array(512);
const LESS = 256;
for (const [row, [, nextMore, nextLess, swaps]] of mqStates.entries()) {
  for (const symbol of [0, 1]) {
    nextStates[2 * row + symbol] = stateOf(nextMore, symbol);
    nextStates[LESS + 2 * row + symbol] = stateOf(nextLess, swaps === 1 ? 1 - symbol : symbol);
  }
}

/** Start of a context: row of table C.2, more probable symbol 0. */
export const startState = (rowIndex: number): number => stateOf(rowIndex, 0);

/**
 * Decoder of one codeword segment after another. The octets after a segment must read FF FF (C.3.4).
 *
 * Of the registers A and C only what is common matters while no renormalization is due: every more probable symbol takes
 * Qe off both. `slack` is how much may still be taken before A falls below one half or C below zero; the rest of A and C
 * waits in two fields. The passes of a code-block hold `slack` in a local variable and do the quick half of `decode`
 * themselves.
 */
export class MqDecoder {
  /** State of each context. */
  readonly contexts: Int32Array;
  slack = 0;
  #intervalRest = 0;
  #codeRest = 0;
  #shiftCount = 0;
  #octets: Uint8Array = new Uint8Array(0);
  #index = 0;

  constructor(contextCount: number) {
    this.contexts = new Int32Array(contextCount);
  }

  /** INITDEC, figure C.10. The contexts stay. */
  start(octets: Uint8Array, startIndex: number): void {
    this.#octets = octets;
    this.#index = startIndex;
    const code = ((octets[startIndex] ?? 0xff) << 8) + this.#readOctet();
    this.#shiftCount -= 7;
    this.#settle(HALF, code << 7);
  }

  /** DECODE, figure C.15: the next symbol in a context. */
  decode(contextIndex: number): number {
    const state = this.contexts[contextIndex] ?? 0;
    this.slack -= state & QE;
    return this.slack >= 0 ? state & 1 : this.decodeSlowly(contextIndex);
  }

  /** What is left to do once Qe was taken off `slack` and it fell below zero: exchange, then RENORMD (figure C.18). */
  decodeSlowly(contextIndex: number): number {
    const state = this.contexts[contextIndex] ?? 0;
    const qe = state & QE;
    let interval = this.#intervalRest + this.slack;
    let code = this.#codeRest + this.slack;
    // Figures C.16 and C.17: the smaller part is the less probable symbol, wherever it lies.
    let less = interval < qe ? 1 : 0;
    if (code < 0) {
      less ^= 1;
      code += qe;
      interval = qe;
    }
    this.contexts[contextIndex] = nextStates[(state & STATE_MASK) + less * LESS] ?? 0;
    // As many bits at once as the octet read last still holds.
    let leftCount = Math.clz32(interval) - (32 - REGISTER_BITS);
    while (leftCount > this.#shiftCount) {
      leftCount -= this.#shiftCount;
      interval <<= this.#shiftCount;
      code = (code << this.#shiftCount) + this.#readOctet();
    }
    this.#shiftCount -= leftCount;
    this.#settle(interval << leftCount, code << leftCount);
    return (state & 1) ^ less;
  }

  #settle(a: number, c: number): void {
    const slack = Math.min(a - HALF, c);
    this.slack = slack;
    this.#intervalRest = a - slack;
    this.#codeRest = c - slack;
  }

  /** BYTEIN, figure C.19: after FF an octet brings seven bits, or is a marker and then stands for ones without end. */
  #readOctet(): number {
    const octets = this.#octets;
    const next = octets[this.#index + 1] ?? 0xff;
    this.#shiftCount = 8;
    if (octets[this.#index] !== 0xff) {
      this.#index += 1;
      return next;
    }
    if (next > 0x8f) return 0xff;
    this.#shiftCount = 7;
    this.#index += 1;
    return next << 1;
  }
}
