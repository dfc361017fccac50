import type { CutGroup, PieceKind } from './cut-group.ts';
import type { WorkBudget } from './work-budget.ts';

/** How many of each kind are made with 0, 1, 2 … joints: `[kind][joints]`. */
export type Recipe = readonly (readonly number[])[];

export interface RecipeAim {
  readonly madeWeight: number;
  readonly jointCount: number;
  /** Room of all bars together. */
  readonly roomQuanta: number;
  /** Fewest joints each kind can be made with at all; null: it cannot be made. */
  readonly leastJointCounts: readonly (number | null)[];
}

/** What a piece takes of the bars when it is made of one part more than it has joints. */
export const loadQuanta = (piece: PieceKind, jointCount: number, kerfQuanta: number): number =>
  piece.lengthQuanta + jointCount * piece.overlapQuanta + (jointCount + 1) * kerfQuanta;

/** A piece to be joined, of so many parts. */
export interface JoinedItem {
  readonly piece: PieceKind;
  readonly pieceKindIndex: number;
  readonly leastPartsQuanta: readonly number[];
}

/** One piece of a kind with its shortest parts: two overlaps between two joints, one at an end, or what is asked for. */
export const itemOf = (piece: PieceKind, pieceKindIndex: number, jointCount: number): JoinedItem => ({
  piece,
  pieceKindIndex,
  leastPartsQuanta: Array.from({ length: jointCount + 1 }, (_, part) =>
    part === 0 || part === jointCount ? piece.leastEndPartQuanta : piece.leastMiddlePartQuanta,
  ),
});

interface Choice {
  readonly madeWeight: number;
  readonly jointCount: number;
  readonly loadQuanta: number;
}

/** Every recipe of just this weight and number of joints whose pieces are not longer than all bars together. */
export function* recipes(group: CutGroup, aim: RecipeAim, budget: WorkBudget): Generator<Recipe> {
  const weightFrom = suffixSums(group.pieces, (piece, kindIndex) =>
    aim.leastJointCounts[kindIndex] === null ? 0 : piece.count * piece.valueWeight,
  );
  const jointsFrom = suffixSums(group.pieces, (piece) => piece.count * piece.maxJoinCount);
  function* from(kindIndex: number, so: Choice, made: Recipe): Generator<Recipe> {
    if (!budget.spend()) return;
    const piece = group.pieces[kindIndex];
    if (piece === undefined) {
      if (so.madeWeight === aim.madeWeight && so.jointCount === aim.jointCount) yield made;
      return;
    }
    if (so.madeWeight + (weightFrom[kindIndex] ?? 0) < aim.madeWeight) return;
    if (so.jointCount + (jointsFrom[kindIndex] ?? 0) < aim.jointCount) return;
    for (const counts of splits(piece, aim.leastJointCounts[kindIndex] ?? null)) {
      const next = added(so, piece, counts, group.kerfQuanta);
      if (next.madeWeight > aim.madeWeight || next.jointCount > aim.jointCount || next.loadQuanta > aim.roomQuanta)
        continue;
      yield* from(kindIndex + 1, next, [...made, counts]);
    }
  }
  yield* from(0, { madeWeight: 0, jointCount: 0, loadQuanta: 0 }, []);
}

function suffixSums(
  pieces: readonly PieceKind[],
  of: (piece: PieceKind, kindIndex: number) => number,
): readonly number[] {
  const sums: number[] = [];
  for (let kindIndex = pieces.length - 1, sum = 0; kindIndex >= 0; kindIndex--) {
    const piece = pieces[kindIndex];
    sum += piece === undefined ? 0 : of(piece, kindIndex);
    sums[kindIndex] = sum;
  }
  return sums;
}

const added = (so: Choice, piece: PieceKind, counts: readonly number[], kerfQuanta: number): Choice => ({
  madeWeight: so.madeWeight + piece.valueWeight * counts.reduce((sum, count) => sum + count, 0),
  jointCount: so.jointCount + counts.reduce((sum, count, jointCount) => sum + count * jointCount, 0),
  loadQuanta:
    so.loadQuanta +
    counts.reduce((sum, count, jointCount) => sum + count * loadQuanta(piece, jointCount, kerfQuanta), 0),
});

/** All ways to share out up to `count` pieces over their numbers of joints, most pieces with fewest joints first. */
function* splits(piece: PieceKind, leastJointCount: number | null): Generator<readonly number[]> {
  if (leastJointCount === null) {
    yield [];
    return;
  }
  function* from(jointCount: number, leftCount: number, counts: readonly number[]): Generator<readonly number[]> {
    if (jointCount > piece.maxJoinCount) {
      yield counts;
      return;
    }
    const most = jointCount < (leastJointCount ?? 0) ? 0 : leftCount;
    for (let count = most; count >= 0; count--) yield* from(jointCount + 1, leftCount - count, [...counts, count]);
  }
  yield* from(0, piece.count, []);
}
