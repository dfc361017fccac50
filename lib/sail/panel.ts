import type { PointM, SegmentM } from './point.ts';
import type { Corner } from './sail-file.ts';

/** One panel of a sail, or one gore. */
export interface Panel {
  /** By convention: from the clew up along the leech; gores from the tack around by way of the clew and the head. */
  readonly panelNumber: number;
  /** Of a gore: the corner it spreads from. */
  readonly corner: Corner | null;
  readonly region: readonly PointM[];
  /** Its middle line: from luff or foot to the leech, of a gore from its corner out. */
  readonly middle: SegmentM;
  /** Across the middle line, toward the next panel; length 1. */
  readonly toNext: PointM;
  /** Seams to the panel before and to the next; null: an edge of the sail. */
  readonly seamBefore: SegmentM | null;
  readonly seamNext: SegmentM | null;
}

/** A seam: between two panels, or where the gores of two corners meet. */
export interface Seam {
  readonly line: SegmentM;
  /** Panels on both sides, lower number first; null where two fans of gores meet. */
  readonly panelNumbers: readonly [number, number] | null;
  readonly corners: readonly [Corner, Corner] | null;
}

export interface Panels {
  readonly panels: readonly Panel[];
  readonly seams: readonly Seam[];
}
