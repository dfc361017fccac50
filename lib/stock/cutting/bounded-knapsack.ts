import type { WholeProblem } from './whole-problem.ts';

/** Copies of one kind taken together, so that any number up to its count is a sum of chunks. */
interface Chunk {
  readonly kindIndex: number;
  readonly copyCount: number;
  readonly sizeQuanta: number;
}

/** Best fillings of bars of every length at once, for changing values of the kinds. */
export class BoundedKnapsack {
  private readonly chunks: readonly Chunk[];
  private readonly kindCount: number;
  private readonly best: Float64Array;
  private readonly taken: Uint8Array;

  private constructor(chunks: readonly Chunk[], kindCount: number, longestQuanta: number) {
    this.chunks = chunks;
    this.kindCount = kindCount;
    this.best = new Float64Array(longestQuanta + 1);
    this.taken = new Uint8Array(chunks.length * (longestQuanta + 1));
  }

  /** Null when the table would have more cells than allowed. */
  static of({ sizesQuanta, counts, capacities }: WholeProblem, mostCellCount: number): BoundedKnapsack | null {
    const longestQuanta = Math.max(0, ...capacities.map(({ roomQuanta }) => roomQuanta));
    const chunks = sizesQuanta.flatMap((sizeQuanta, kindIndex) =>
      chunksOf(kindIndex, sizeQuanta, Math.min(counts[kindIndex] ?? 0, Math.floor(longestQuanta / sizeQuanta))),
    );
    if (chunks.length * (longestQuanta + 1) > mostCellCount) return null;
    return new BoundedKnapsack(chunks, sizesQuanta.length, longestQuanta);
  }

  get cellCount(): number {
    return this.taken.length;
  }

  /** Solves for these values, none below 0. */
  solve(values: readonly number[]): void {
    const { best, taken } = this;
    best.fill(0);
    const width = best.length;
    for (const [row, { kindIndex, copyCount, sizeQuanta }] of this.chunks.entries()) {
      const gain = copyCount * (values[kindIndex] ?? 0);
      const base = row * width;
      for (let room = width - 1; room >= 0; room--) {
        const withIt = room >= sizeQuanta ? (best[room - sizeQuanta] ?? 0) + gain : 0;
        const better = room >= sizeQuanta && withIt > (best[room] ?? 0);
        taken[base + room] = better ? 1 : 0;
        if (better) best[room] = withIt;
      }
    }
  }

  /** Best value in a bar, after `solve`. */
  bestIn(roomQuanta: number): number {
    return this.best[Math.max(0, roomQuanta)] ?? 0;
  }

  /** How many of each kind the best filling takes. */
  countsIn(roomQuanta: number): number[] {
    const counts = Array.from({ length: this.kindCount }, () => 0);
    let room = Math.max(0, roomQuanta);
    for (let row = this.chunks.length - 1; row >= 0; row--) {
      const chunk = this.chunks[row];
      if (chunk === undefined || this.taken[row * this.best.length + room] !== 1) continue;
      counts[chunk.kindIndex] = (counts[chunk.kindIndex] ?? 0) + chunk.copyCount;
      room -= chunk.sizeQuanta;
    }
    return counts;
  }
}

function chunksOf(kindIndex: number, sizeQuanta: number, count: number): readonly Chunk[] {
  const chunks: Chunk[] = [];
  let left = count;
  for (let copyCount = 1; left > 0; copyCount *= 2) {
    const taken = Math.min(copyCount, left);
    chunks.push({ kindIndex, copyCount: taken, sizeQuanta: taken * sizeQuanta });
    left -= taken;
  }
  return chunks;
}
