/** Bit-planes of a code-block: three coding passes over flags of four coefficients each (D.1 to D.4). */
import * as flag from './block-flags.ts';
import { CONTEXT, CONTEXT_COUNT, type Orientation, SIGN_FLIP, signContexts, zeroContexts } from './context-tables.ts';
import { MqDecoder, QE_MASK, startState } from './mq-decoder.ts';

// Constants of this module, which the compiler writes into the loops as numbers; imported ones it would read each time,
// which was measured to cost a tenth of the whole decoding.
const { ALL_CODED, ALL_OWN, ANY_NEAR, CODED, NEIGHBOURS, OWN, REFINED, STRIPE_ROWS } = flag;
const { NEGATIVE_ABOVE_SHIFT, NEGATIVE_BELOW_SHIFT, NEGATIVE_SHIFT } = flag;
const SIGN_TABLE = signContexts;
const SIGN_CONTEXT = SIGN_FLIP - 1;
const QE = QE_MASK;
const RUN_LENGTH = CONTEXT.runLength;
const UNIFORM = CONTEXT.uniform;

/** Contexts of refinement, table D.4: first time without and with significant neighbours, and all later times. */
const FIRST_ALONE: number = CONTEXT.refinement;
const FIRST_NEAR: number = FIRST_ALONE + 1;
const REFINED_BEFORE: number = FIRST_ALONE + 2;

/** From a coefficient's bit `CODED` down to its bit `OWN`. */
const CODED_TO_OWN = 14;
/** Three bits for each row before the last. */
const LAST_SHIFT = 9;
/** Bits of a neighbourhood for north, west, east, south. */
const SIGN_NEIGHBOURS = 0xaa;
const SIGN_FLIP_SHIFT = 7;
/** Leading zeros of a number whose highest bit is `OWN`. */
const ZEROS_BEFORE_OWN = 27;

/** Most coefficients of a code-block, rows filled up to whole stripes. */
const MOST_COEFFICIENTS = 4096;

/**
 * One code-block at a time; its memory is used again for the next.
 *
 * Magnitudes are kept doubled, with a one below the last bit that was decoded, so that a coefficient of which bit-planes
 * are missing lies in the middle of what it can be, and one that is complete is half of its number (E.1.1.2, r = 1/2).
 * They are unsigned numbers of 32 bits.
 */
export class CodeBlockDecoder {
  readonly flags = new Int32Array(flag.MOST_WORDS);
  /** Stripe by stripe, column by column, four rows each. */
  readonly magnitudes = new Int32Array(MOST_COEFFICIENTS);
  readonly mq = new MqDecoder(CONTEXT_COUNT);
  columnCount = 0;
  rowCount = 0;
  isCausal = false;
  zeroTable: Uint8Array = zeroContexts.LL;

  /** Begins a code-block without any significant coefficient. */
  begin(block: {
    readonly columnCount: number;
    readonly rowCount: number;
    readonly orientation: Orientation;
    readonly isCausal: boolean;
  }): void {
    this.columnCount = block.columnCount;
    this.rowCount = block.rowCount;
    this.isCausal = block.isCausal;
    this.zeroTable = zeroContexts[block.orientation];
    const stripeCount = this.stripeCount;
    this.flags.fill(0, 0, (stripeCount + 2) * this.stride);
    this.magnitudes.fill(0, 0, stripeCount * STRIPE_ROWS * this.columnCount);
    this.resetContexts();
  }

  get stripeCount(): number {
    return (this.rowCount + STRIPE_ROWS - 1) >> 2;
  }

  /** Words from one stripe to the next. */
  get stride(): number {
    return this.columnCount + 2;
  }

  /** Table D.7. */
  resetContexts(): void {
    const { contexts } = this.mq;
    contexts.fill(startState(0));
    contexts[CONTEXT.zero] = startState(4);
    contexts[CONTEXT.runLength] = startState(3);
    contexts[CONTEXT.uniform] = startState(46);
  }

  /** D.3.1: coefficients not yet significant that have a significant neighbour. */
  passSignificance(planeIndex: number): void {
    // One long loop on locals, with the quick half of `MqDecoder.decode` in line: a decoder spends its time here, and a
    // call for each coefficient would double it. `left` walks through the rows of a column that are to be coded, lowest
    // bit first; eleven thirty-seconds of 0, 3, 6, 9 are the rows 0, 1, 2, 3.
    const { flags, magnitudes, mq, zeroTable, columnCount, stride } = this;
    const { contexts } = mq;
    const firstValue = 3 << planeIndex;
    let slack = mq.slack;
    let state = 0;
    let bit = 0;
    let column = 0;
    for (let stripe = 0; stripe < this.stripeCount; stripe++) {
      const rows = Math.min(STRIPE_ROWS, this.rowCount - stripe * STRIPE_ROWS);
      const rowMask = ALL_OWN & ((OWN << (3 * rows - 2)) - 1);
      const first = (stripe + 1) * stride + 1;
      for (let i = first; i < first + columnCount; i++, column++) {
        let word = flags[i] ?? 0;
        if ((word & ANY_NEAR) === 0) continue;
        // A bit for each row not yet significant, three apart.
        let left = ~word & rowMask;
        while (left !== 0) {
          const shift = ZEROS_BEFORE_OWN - Math.clz32(left & -left);
          left &= left - 1;
          const near = word >>> shift;
          if ((near & NEIGHBOURS) === 0) continue;
          word |= CODED << shift;
          const context = zeroTable[near & NEIGHBOURS] ?? 0;
          state = contexts[context] ?? 0;
          slack -= state & QE;
          bit = state & 1;
          if (slack < 0) {
            mq.slack = slack;
            bit = mq.decodeSlowly(context);
            slack = mq.slack;
          }
          if (bit === 0) continue;
          mq.slack = slack;
          word |= this.#decodeSign(word, i, shift);
          slack = mq.slack;
          magnitudes[4 * column + ((shift * 11) >> 5)] = firstValue;
        }
        flags[i] = word;
      }
    }
    mq.slack = slack;
  }

  /** D.3.3: one more bit of the coefficients that were significant before this bit-plane. */
  passRefinement(planeIndex: number): void {
    // One long loop on locals, as above.
    const { flags, magnitudes, mq, columnCount, stride } = this;
    const { contexts } = mq;
    const half = 1 << planeIndex;
    let slack = mq.slack;
    let state = 0;
    let bit = 0;
    let column = 0;
    for (let stripe = 0; stripe < this.stripeCount; stripe++) {
      const first = (stripe + 1) * stride + 1;
      for (let i = first; i < first + columnCount; i++, column++) {
        let word = flags[i] ?? 0;
        // A bit for each row to be refined, three apart.
        let left = word & ~(word >>> CODED_TO_OWN) & ALL_OWN;
        while (left !== 0) {
          const shift = ZEROS_BEFORE_OWN - Math.clz32(left & -left);
          left &= left - 1;
          const near = word >>> shift;
          let context = REFINED_BEFORE;
          if ((near & REFINED) === 0) {
            context = (near & NEIGHBOURS) === 0 ? FIRST_ALONE : FIRST_NEAR;
            word |= REFINED << shift;
          }
          state = contexts[context] ?? 0;
          slack -= state & QE;
          bit = state & 1;
          if (slack < 0) {
            mq.slack = slack;
            bit = mq.decodeSlowly(context);
            slack = mq.slack;
          }
          // The half set before is the place of this bit: it stays for a one and goes for a zero.
          const at = 4 * column + ((shift * 11) >> 5);
          magnitudes[at] = (magnitudes[at] ?? 0) + (bit === 0 ? -half : half);
        }
        flags[i] = word;
      }
    }
    mq.slack = slack;
  }

  /** D.3.4: all coefficients that the other passes left, four zeros at once where nothing is near. */
  passCleanUp(planeIndex: number): void {
    // One long loop on locals, as above.
    const { flags, magnitudes, mq, zeroTable, columnCount, stride } = this;
    const { contexts } = mq;
    const firstValue = 3 << planeIndex;
    let slack = mq.slack;
    let state = 0;
    let bit = 0;
    let column = 0;
    for (let stripe = 0; stripe < this.stripeCount; stripe++) {
      const rows = Math.min(STRIPE_ROWS, this.rowCount - stripe * STRIPE_ROWS);
      const rowMask = ALL_OWN & ((OWN << (3 * rows - 2)) - 1);
      const first = (stripe + 1) * stride + 1;
      for (let i = first; i < first + columnCount; i++, column++) {
        let word = flags[i] ?? 0;
        // A bit for each row neither significant nor coded, three apart.
        let left = ~(word | (word >>> CODED_TO_OWN)) & rowMask;
        if (left === 0) {
          flags[i] = word & ~ALL_CODED;
          continue;
        }
        if ((word & ANY_NEAR) === 0 && rows === STRIPE_ROWS) {
          mq.slack = slack;
          const zeros = this.#decodeRun();
          if (zeros === STRIPE_ROWS) {
            slack = mq.slack;
            continue;
          }
          word |= this.#decodeSign(word, i, 3 * zeros);
          slack = mq.slack;
          magnitudes[4 * column + zeros] = firstValue;
          left &= -OWN << (3 * zeros + 1);
        }
        while (left !== 0) {
          const shift = ZEROS_BEFORE_OWN - Math.clz32(left & -left);
          left &= left - 1;
          const context = zeroTable[(word >>> shift) & NEIGHBOURS] ?? 0;
          state = contexts[context] ?? 0;
          slack -= state & QE;
          bit = state & 1;
          if (slack < 0) {
            mq.slack = slack;
            bit = mq.decodeSlowly(context);
            slack = mq.slack;
          }
          if (bit === 0) continue;
          mq.slack = slack;
          word |= this.#decodeSign(word, i, shift);
          slack = mq.slack;
          magnitudes[4 * column + ((shift * 11) >> 5)] = firstValue;
        }
        flags[i] = word & ~ALL_CODED;
      }
    }
    mq.slack = slack;
  }

  /** Zeros before the first one in a column of four that has nothing near; 4 when there is none. */
  #decodeRun(): number {
    const { mq } = this;
    if (mq.decode(RUN_LENGTH) === 0) return STRIPE_ROWS;
    const upper = mq.decode(UNIFORM);
    return 2 * upper + mq.decode(UNIFORM);
  }

  /**
   * D.3.2: the sign of a coefficient that became significant. Numbers in a row, as this is called from the inmost loops.
   *
   * @param wordBits flags of its column
   * @param wordIndex of the same
   * @param shiftBits three for each row of the stripe above its own
   * @returns what its word gains
   */
  #decodeSign(wordBits: number, wordIndex: number, shiftBits: number): number {
    const { flags, mq } = this;
    const near = wordBits >>> shiftBits;
    const west = (flags[wordIndex - 1] ?? 0) >>> (NEGATIVE_SHIFT + shiftBits);
    const east = (flags[wordIndex + 1] ?? 0) >>> (NEGATIVE_SHIFT + shiftBits);
    const north = shiftBits === 0 ? wordBits >>> NEGATIVE_ABOVE_SHIFT : near >>> (NEGATIVE_SHIFT - 3);
    const south = shiftBits === LAST_SHIFT ? wordBits >>> NEGATIVE_BELOW_SHIFT : near >>> (NEGATIVE_SHIFT + 3);
    const signs = (north & 1) | ((west & 1) << 2) | ((east & 1) << 4) | ((south & 1) << 6);
    const entry = SIGN_TABLE[(near & SIGN_NEIGHBOURS) | signs] ?? 0;
    const negativeBits = mq.decode(entry & SIGN_CONTEXT) ^ (entry >>> SIGN_FLIP_SHIFT);
    this.spread(wordIndex, shiftBits, negativeBits);
    return (OWN | (negativeBits << NEGATIVE_SHIFT)) << shiftBits;
  }

  /** Tells the words around a coefficient that it became significant, and those above and below its sign. */
  spread(wordIndex: number, shiftBits: number, negativeBits: number): void {
    const { flags, stride } = this;
    flags[wordIndex - 1] = (flags[wordIndex - 1] ?? 0) | (0x20 << shiftBits);
    flags[wordIndex + 1] = (flags[wordIndex + 1] ?? 0) | (0x08 << shiftBits);
    if (shiftBits === 0 && !this.isCausal) {
      const above = wordIndex - stride;
      flags[above - 1] = (flags[above - 1] ?? 0) | 0x2_0000;
      flags[above] = (flags[above] ?? 0) | 0x1_0000 | (negativeBits << NEGATIVE_BELOW_SHIFT);
      flags[above + 1] = (flags[above + 1] ?? 0) | 0x8000;
    } else if (shiftBits === LAST_SHIFT) {
      const below = wordIndex + stride;
      flags[below - 1] = (flags[below - 1] ?? 0) | 4;
      flags[below] = (flags[below] ?? 0) | 2 | (negativeBits << NEGATIVE_ABOVE_SHIFT);
      flags[below + 1] = (flags[below + 1] ?? 0) | 1;
    }
  }
}
