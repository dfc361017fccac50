import type { CutGroup } from './cut-group.ts';
import { loadQuanta } from './recipes.ts';

/** Cells of the table beyond which it is not made. */
const MOST_CELLS = 40_000_000;

/** A weight of pieces made, and what such pieces take of the bars at the least. */
export interface MadeLevel {
  readonly madeWeight: number;
  readonly leastLoadQuanta: number;
}

export interface MadeLevels {
  readonly levels: readonly MadeLevel[];
  readonly areAll: boolean;
}

/**
 * Weights of pieces made that are not ruled out by length, greatest first: what pieces of such a weight take at the least,
 * each with its fewest joints, is no longer than all bars together.
 *
 * @returns the weights and whether these are all of them; where there are too many to go through, all made and nothing else
 */
export function madeLevels(
  group: CutGroup,
  leastJointCounts: readonly (number | null)[],
  roomQuanta: number,
): MadeLevels {
  const chunks = group.pieces.flatMap((piece, kind) => {
    const joints = leastJointCounts[kind] ?? null;
    if (joints === null) return [];
    return chunkCounts(piece.count).map((count) => ({
      madeWeight: count * piece.valueWeight,
      leastLoadQuanta: count * loadQuanta(piece, joints, group.kerfQuanta),
    }));
  });
  const all = chunks.reduce(
    (sum, chunk) => ({
      madeWeight: sum.madeWeight + chunk.madeWeight,
      leastLoadQuanta: sum.leastLoadQuanta + chunk.leastLoadQuanta,
    }),
    { madeWeight: 0, leastLoadQuanta: 0 },
  );
  // The table is for what is short of all: without a shortage the first level is nearly always the last.
  if (chunks.length * all.madeWeight > MOST_CELLS) return { levels: [all], areAll: false };
  return { levels: levelsOf(chunks, all.madeWeight, roomQuanta), areAll: true };
}

/** The greatest weight that pieces could have in this room if they could be made in fractions. */
export function fractionalWeight(
  group: CutGroup,
  leastJointCounts: readonly (number | null)[],
  roomQuanta: number,
): number {
  let [roomLeft, weight] = [roomQuanta, 0];
  for (const kind of byWorth(group, leastJointCounts)) {
    const taken = Math.min(kind.count, roomLeft / kind.loadQuanta);
    weight += taken * kind.pieceWeight;
    roomLeft -= taken * kind.loadQuanta;
    if (roomLeft <= 0) break;
  }
  return Math.floor(weight + 1e-6);
}

/** What pieces of a weight take at the least if they could be made in fractions: those worth most for their length. */
export function fractionalLoadQuanta(
  group: CutGroup,
  leastJointCounts: readonly (number | null)[],
  madeWeight: number,
): number {
  let [weightLeft, taken] = [madeWeight, 0];
  for (const kind of byWorth(group, leastJointCounts)) {
    const share = Math.min(kind.count, weightLeft / kind.pieceWeight);
    taken += share * kind.loadQuanta;
    weightLeft -= share * kind.pieceWeight;
    if (weightLeft <= 0) break;
  }
  return Math.ceil(taken - 1e-6);
}

/** Kinds that can be made at all, worth most for their length first. */
function byWorth(
  group: CutGroup,
  leastJointCounts: readonly (number | null)[],
): readonly { readonly count: number; readonly pieceWeight: number; readonly loadQuanta: number }[] {
  return group.pieces
    .flatMap((piece, kindIndex) => {
      const joints = leastJointCounts[kindIndex] ?? null;
      if (joints === null) return [];
      return [
        { count: piece.count, pieceWeight: piece.valueWeight, loadQuanta: loadQuanta(piece, joints, group.kerfQuanta) },
      ];
    })
    .toSorted((a, b) => b.pieceWeight / b.loadQuanta - a.pieceWeight / a.loadQuanta);
}

function levelsOf(chunks: readonly MadeLevel[], allWeight: number, roomQuanta: number): readonly MadeLevel[] {
  const leastLoads = new Float64Array(allWeight + 1).fill(Number.POSITIVE_INFINITY);
  leastLoads[0] = 0;
  for (const chunk of chunks)
    for (let weight = allWeight; weight >= chunk.madeWeight; weight--) {
      const load = (leastLoads[weight - chunk.madeWeight] ?? 0) + chunk.leastLoadQuanta;
      if (load < (leastLoads[weight] ?? 0)) leastLoads[weight] = load;
    }
  const levels: MadeLevel[] = [];
  for (let madeWeight = allWeight; madeWeight > 0; madeWeight--) {
    const leastLoadQuanta = leastLoads[madeWeight] ?? 0;
    if (leastLoadQuanta <= roomQuanta) levels.push({ madeWeight, leastLoadQuanta });
  }
  return levels;
}

/** Numbers whose sums make every number up to `count`. */
function chunkCounts(count: number): readonly number[] {
  const counts: number[] = [];
  for (let [left, next] = [count, 1]; left > 0; next *= 2) {
    const taken = Math.min(left, next);
    counts.push(taken);
    left -= taken;
  }
  return counts;
}
