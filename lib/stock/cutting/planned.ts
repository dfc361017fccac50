/** A length cut from a bar, from its first end. */
export interface PlannedCut {
  /** Of the piece, such as `batten#2`. */
  readonly pieceId: string;
  /** From 1; a whole piece is part 1 of 1. */
  readonly partNumber: number;
  readonly partCount: number;
  readonly fromMm: number;
  readonly toMm: number;
  readonly lengthMm: number;
}

/** One bar that is cut. */
export interface PlannedBar {
  /** Such as `tube#1`. */
  readonly barId: string;
  readonly stockId: string;
  readonly diameterMm: number;
  readonly lengthMm: number;
  readonly cuts: readonly PlannedCut[];
  readonly leftOverMm: number;
  /** Long enough to go back to the locker. */
  readonly isLeftOverUseful: boolean;
}

/** A joint on the finished piece, from its first end. */
export interface PlannedJoint {
  readonly fromMm: number;
  readonly toMm: number;
}

/** A piece put together of parts. */
export interface PlannedJoinedPiece {
  readonly pieceId: string;
  readonly diameterMm: number;
  /** Finished. */
  readonly lengthMm: number;
  readonly endAllowanceMm: number;
  readonly overlapMm: number;
  readonly parts: readonly { readonly barId: string; readonly lengthMm: number }[];
  readonly joints: readonly PlannedJoint[];
}

/** The levels a plan is judged on, in order. */
export type CutLevel = 'made' | 'joins' | 'bars' | 'left-over';

/** The first level that is not proven: what was found, and what is not ruled out. */
export interface OpenLevel {
  readonly level: CutLevel;
  readonly foundAmount: number;
  readonly boundAmount: number;
  readonly unit: string;
}

/** What to cut from what, and how good that is. */
export interface CutPlan {
  readonly kerfMm: number;
  readonly madeIds: readonly string[];
  readonly jointCount: number;
  readonly barCount: number;
  /** Of the bars that are cut, the longest left-over; 0 when none is. Bars not touched do not count. */
  readonly longestLeftOverMm: number;
  /** No better plan exists, at any level. */
  readonly isOptimal: boolean;
  readonly open: OpenLevel | null;
  readonly bars: readonly PlannedBar[];
  readonly joined: readonly PlannedJoinedPiece[];
  readonly notMade: readonly NotMade[];
  readonly defaultsUsed: readonly string[];
}

/**
 * - `no-stock`: no bar of its diameter.
 * - `cannot-be-made`: not from these bars, even if it were the only piece.
 * - `stock-short`: the bars go to other pieces.
 */
export type NotMadeReason = 'no-stock' | 'cannot-be-made' | 'stock-short';

/** One piece that is not made. */
export interface NotMade {
  readonly pieceId: string;
  /** Field of the file, such as `pieces[2].lengthMm`. */
  readonly field: string;
  readonly reason: NotMadeReason;
  readonly what: string;
  readonly remedy: string;
  /** One more bar of this length would do; never longer than the piece as cut. */
  readonly neededBarMm: number;
  /** With so many joints allowed the bars there are would do for it alone; null: with none up to six. */
  readonly neededJointCount: number | null;
}
