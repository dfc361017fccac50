/** What packets have said so far of the code-blocks of a tile, and where their octets are. */
import { BLOCK_STYLE } from './coding-style.ts';

/** Passes before the first raw one: the clean-up of the first bit-plane and three whole bit-planes (D.6). */
const PASSES_BEFORE_BYPASS = 10;

/**
 * Passes from one on, up to the next end of a codeword segment; Infinity when there is none (D.4, D.6, table D.9).
 *
 * @param passIndex pass of the code-block, from 0
 */
export function passesToTermination(blockStyleCode: number, passIndex: number): number {
  if ((blockStyleCode & BLOCK_STYLE.terminateEachPass) !== 0) return 1;
  if ((blockStyleCode & BLOCK_STYLE.bypass) === 0) return Infinity;
  if (passIndex < PASSES_BEFORE_BYPASS) return PASSES_BEFORE_BYPASS - passIndex;
  // Significance propagation and refinement share a raw segment, the clean-up has its own.
  return (passIndex - PASSES_BEFORE_BYPASS) % 3 === 0 ? 2 : 1;
}

/** Whether a pass holds raw bits instead of arithmetic codewords. */
export const isRawPass = (blockStyleCode: number, passIndex: number): boolean =>
  (blockStyleCode & BLOCK_STYLE.bypass) !== 0 &&
  passIndex >= PASSES_BEFORE_BYPASS &&
  (passIndex - PASSES_BEFORE_BYPASS) % 3 !== 2;

/** Lblock before the first packet: B.10.7.1. */
const FIRST_LENGTH_BITS = 3;
const NONE = -1;

/**
 * The code-blocks of a tile by number. Arrays of numbers instead of objects, because masked fields are coded as one
 * long row and have some ten thousand code-blocks.
 *
 * What one packet adds to one codeword segment is a piece; the pieces of a code-block are chained in their order.
 */
export class CodeBlocks {
  readonly passCounts: Uint8Array;
  /** Magnitude bit-planes that hold something; 0 until the code-block is included. */
  readonly planeCounts: Uint8Array;
  /** Lblock: B.10.7.1. */
  readonly lengthBits: Uint8Array;
  readonly #firstPieces: Int32Array;
  readonly #lastPieces: Int32Array;
  /** Start, length, number of passes and next piece, one after another. */
  #pieces = new Int32Array(1024);
  #pieceCount = 0;

  constructor(blockCount: number) {
    this.passCounts = new Uint8Array(blockCount);
    this.planeCounts = new Uint8Array(blockCount);
    this.lengthBits = new Uint8Array(blockCount).fill(FIRST_LENGTH_BITS);
    this.#firstPieces = new Int32Array(blockCount).fill(NONE);
    this.#lastPieces = new Int32Array(blockCount).fill(NONE);
  }

  get pieceCount(): number {
    return this.#pieceCount;
  }

  /** Chains a piece to a code-block; its place is not yet known. */
  addPiece(blockIndex: number, piece: { readonly lengthOctets: number; readonly passCount: number }): void {
    const added = this.#pieceCount;
    if ((added + 1) * 4 > this.#pieces.length) this.#grow();
    this.#pieces[added * 4 + 1] = piece.lengthOctets;
    this.#pieces[added * 4 + 2] = piece.passCount;
    this.#pieces[added * 4 + 3] = NONE;
    this.#pieceCount += 1;
    const last = this.#lastPieces[blockIndex] ?? NONE;
    if (last === NONE) this.#firstPieces[blockIndex] = added;
    else this.#pieces[last * 4 + 3] = added;
    this.#lastPieces[blockIndex] = added;
    this.passCounts[blockIndex] = (this.passCounts[blockIndex] ?? 0) + piece.passCount;
  }

  /** Gives the pieces from one on their places, one after another from `startIndex`; returns the index after the last. */
  placePieces(fromPieceIndex: number, startIndex: number): number {
    let index = startIndex;
    for (let piece = fromPieceIndex; piece < this.#pieceCount; piece++) {
      this.#pieces[piece * 4] = index;
      index += this.lengthOf(piece);
    }
    return index;
  }

  /** First piece of a code-block, -1 when it has none. */
  firstPieceOf = (blockIndex: number): number => this.#firstPieces[blockIndex] ?? NONE;
  /** Piece after one, -1 after the last. */
  nextPieceOf = (pieceIndex: number): number => this.#pieces[pieceIndex * 4 + 3] ?? NONE;
  /** First octet of a piece in the packets of the tile. */
  startOf = (pieceIndex: number): number => this.#pieces[pieceIndex * 4] ?? 0;
  lengthOf = (pieceIndex: number): number => this.#pieces[pieceIndex * 4 + 1] ?? 0;
  passesOf = (pieceIndex: number): number => this.#pieces[pieceIndex * 4 + 2] ?? 0;

  #grow(): void {
    const larger = new Int32Array(this.#pieces.length * 2);
    larger.set(this.#pieces);
    this.#pieces = larger;
  }
}
