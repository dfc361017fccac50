/** Bars of one kind in the locker. */
export interface StockLine {
  readonly id: string;
  readonly lengthMm: number;
  readonly diameterMm: number;
  readonly count: number;
}

/** From … to on the finished piece [mm], measured from its first end. */
export type ZoneMm = readonly [fromMm: number, toMm: number];

/** Pieces of one kind that are wanted. */
export interface WantedPiece {
  readonly id: string;
  /** Finished. */
  readonly lengthMm: number;
  readonly diameterMm: number;
  readonly count: number;
  /** 1 … 9, more is more important, as for jobs. */
  readonly priority: number;
  readonly maxJoinCount: number;
  readonly overlapMm: number;
  /** Cut longer by so much in all; it is left on at the far end for fitting and trimming. */
  readonly endAllowanceMm: number;
  /** No part of a joined piece is shorter. */
  readonly shortestPartMm: number;
  readonly noJoinZonesMm: readonly ZoneMm[];
}

/** What to cut from what, with every default filled in. */
export interface CutRequest {
  readonly kerfMm: number;
  readonly stock: readonly StockLine[];
  readonly pieces: readonly WantedPiece[];
  /** What the file left out: path and the value taken, such as `pieces[0].overlapMm: 240`. */
  readonly defaultsUsed: readonly string[];
}
