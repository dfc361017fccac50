import type { Panel } from './panel.ts';
import type { PointM, SegmentM } from './point.ts';

/** Where in the file a damage stands. */
export interface DamageAt {
  readonly where: string;
  readonly path: readonly (string | number)[];
}

/** A strip of cloth that a damage is said to lie in: a panel, a seam, or what lies between two battens. */
export interface Strip {
  readonly panel: Panel | null;
  readonly isSeam: boolean;
  /** Along it, from luff, foot or corner to the leech or outer end. */
  readonly middle: SegmentM;
  /** All of it. */
  readonly region: readonly PointM[];
  /** Across it, length 1, and how far from its middle line the place may be on both sides [m]. */
  readonly across: PointM;
  readonly looseM: number;
}
