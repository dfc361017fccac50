/** Sums that pieces can make, for bars up to some length; too large a table is not made. */
const MOST_CELLS = 12_000_000;

/**
 * The greatest sum not above a length that pieces of kind i and later kinds make, each at most so many times.
 *
 * Not knowing is answered by the length itself, which is never too little.
 */
export class ReachTable {
  private readonly rows: readonly Int32Array[] | null;

  constructor(sizesQuanta: readonly number[], counts: readonly number[], longestQuanta: number) {
    const cellCount = (sizesQuanta.length + 1) * (longestQuanta + 1);
    this.rows = cellCount > MOST_CELLS ? null : reachRows(sizesQuanta, counts, longestQuanta);
  }

  greatestQuanta(fromKindIndex: number, withinQuanta: number): number {
    return this.rows?.[fromKindIndex]?.[withinQuanta] ?? withinQuanta;
  }
}

function reachRows(sizes: readonly number[], counts: readonly number[], longestQuanta: number): readonly Int32Array[] {
  const reached = new Uint8Array(longestQuanta + 1);
  reached[0] = 1;
  const rows = [greatestBelow(reached)];
  for (let kind = sizes.length - 1; kind >= 0; kind--) {
    addKind(reached, sizes[kind] ?? 0, counts[kind] ?? 0);
    rows.unshift(greatestBelow(reached));
  }
  return rows;
}

/** Marks every sum with 0 … count more of a size. */
function addKind(reached: Uint8Array, sizeQuanta: number, count: number): void {
  const usedCounts = new Int32Array(reached.length);
  for (let sum = sizeQuanta; sum < reached.length; sum++) {
    if (reached[sum] === 1 || reached[sum - sizeQuanta] === 0) continue;
    const used = (usedCounts[sum - sizeQuanta] ?? 0) + 1;
    if (used > count) continue;
    reached[sum] = 1;
    usedCounts[sum] = used;
  }
}

function greatestBelow(reached: Uint8Array): Int32Array {
  const row = new Int32Array(reached.length);
  let greatest = 0;
  for (let sum = 0; sum < reached.length; sum++) {
    if (reached[sum] === 1) greatest = sum;
    row[sum] = greatest;
  }
  return row;
}
