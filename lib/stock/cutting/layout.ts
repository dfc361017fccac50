import type { CutGroup } from './cut-group.ts';

/** One bar of the stock, or what of it may be used. */
export interface BarSlot {
  /** Index in `bars` of the group. */
  readonly barKindIndex: number;
  /** Room for parts, each with a kerf. */
  readonly roomQuanta: number;
  /** The bar whose left-over is asked for. */
  readonly isSpare: boolean;
}

/** A length cut from a bar: a whole piece, or a part of a joined one. */
export interface LaidPart {
  readonly pieceKindIndex: number;
  readonly lengthQuanta: number;
  /** Index in `joined` of the layout; null for a whole piece. */
  readonly joinedIndex: number | null;
  /** Place of the part in the piece, from its first end. */
  readonly partIndex: number;
}

/** A bar with something cut from it. */
export interface LaidBar {
  readonly barKindIndex: number;
  readonly parts: readonly LaidPart[];
}

export interface JoinedPiece {
  readonly pieceKindIndex: number;
  readonly partsQuanta: readonly number[];
}

/** Which length is cut from which bar, for one diameter. */
export interface Layout {
  readonly bars: readonly LaidBar[];
  readonly joined: readonly JoinedPiece[];
}

/** What a layout is worth, level by level. */
export interface LayoutScore {
  readonly madeWeight: number;
  readonly jointCount: number;
  readonly barCount: number;
  readonly leftOverQuanta: number;
}

/** Room of a bar: the last cut may run off its end. */
export const roomOf = (lengthQuanta: number, kerfQuanta: number): number => lengthQuanta + kerfQuanta;

/** What is left of a bar, its last kerf taken off. */
export function leftOverQuanta({ bars, kerfQuanta }: CutGroup, { barKindIndex, parts }: LaidBar): number {
  const length = bars[barKindIndex]?.lengthQuanta ?? 0;
  return Math.max(
    0,
    parts.reduce((left, part) => left - part.lengthQuanta - kerfQuanta, length),
  );
}

/** How many of each kind are made. */
export function madeCounts(group: CutGroup, layout: Layout): number[] {
  const counts = group.pieces.map(() => 0);
  for (const { parts } of layout.bars)
    for (const { pieceKindIndex, joinedIndex } of parts)
      if (joinedIndex === null) counts[pieceKindIndex] = (counts[pieceKindIndex] ?? 0) + 1;
  for (const { pieceKindIndex } of layout.joined) counts[pieceKindIndex] = (counts[pieceKindIndex] ?? 0) + 1;
  return counts;
}

export const scoreOf = (group: CutGroup, layout: Layout): LayoutScore => ({
  madeWeight: madeCounts(group, layout).reduce(
    (sum, count, kind) => sum + count * (group.pieces[kind]?.valueWeight ?? 0),
    0,
  ),
  jointCount: layout.joined.reduce((sum, { partsQuanta }) => sum + partsQuanta.length - 1, 0),
  barCount: layout.bars.length,
  leftOverQuanta: Math.max(0, ...layout.bars.map((bar) => leftOverQuanta(group, bar))),
});

/** Whether a score is better at the first level at which they differ. */
export function isBetter(score: LayoutScore, than: LayoutScore): boolean {
  if (score.madeWeight !== than.madeWeight) return score.madeWeight > than.madeWeight;
  if (score.jointCount !== than.jointCount) return score.jointCount < than.jointCount;
  if (score.barCount !== than.barCount) return score.barCount < than.barCount;
  return score.leftOverQuanta > than.leftOverQuanta;
}
