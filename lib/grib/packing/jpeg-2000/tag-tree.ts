/** Tag tree: a grid of numbers coded through the minima of ever larger squares (B.10.2). */
import type { PacketBits } from './packet-bits.ts';

/** States of a node. */
const UNKNOWN = 0;
const KNOWN = 1;

export class TagTree {
  /** Columns of each level, leaves first. */
  readonly #columnCounts: number[] = [];
  /** First node of each level. */
  readonly #firstIndexes: number[] = [];
  /** What each node is known to be at least. */
  readonly #minima: Int32Array;
  readonly #states: Uint8Array;

  constructor(extent: { readonly columnCount: number; readonly rowCount: number }) {
    let { columnCount, rowCount } = extent;
    let nodeCount = 0;
    for (;;) {
      this.#columnCounts.push(columnCount);
      this.#firstIndexes.push(nodeCount);
      nodeCount += columnCount * rowCount;
      if (columnCount * rowCount <= 1) break;
      columnCount = (columnCount + 1) >> 1;
      rowCount = (rowCount + 1) >> 1;
    }
    this.#minima = new Int32Array(nodeCount);
    this.#states = new Uint8Array(nodeCount);
  }

  /**
   * Reads as far as needed to say whether the number of a leaf is below a threshold.
   *
   * @param leaf column and row from 0
   * @returns the number, or `threshold` when it is not below
   */
  read(bits: PacketBits, leaf: { columnIndex: number; rowIndex: number }, thresholdNumber: number): number {
    let minimum = 0;
    for (let level = this.#columnCounts.length - 1; level >= 0; level--) {
      const column = leaf.columnIndex >> level;
      const row = leaf.rowIndex >> level;
      const node = (this.#firstIndexes[level] ?? 0) + row * (this.#columnCounts[level] ?? 0) + column;
      minimum = Math.max(minimum, this.#minima[node] ?? 0);
      let state = this.#states[node] ?? UNKNOWN;
      while (state === UNKNOWN && minimum < thresholdNumber) {
        if (bits.readBit() === 1) state = KNOWN;
        else minimum += 1;
      }
      this.#minima[node] = minimum;
      this.#states[node] = state;
    }
    return minimum;
  }
}
