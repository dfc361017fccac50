/** One bar, or bars that are alike, into which whole pieces go: so much of pieces with a kerf each. */
export interface Capacity {
  readonly roomQuanta: number;
  readonly count: number;
  /** What is wasted here is what others need not waste: the bar of the left-over. */
  readonly isSpare: boolean;
}

/** Whole pieces to be put into bars. */
export interface WholeProblem {
  /** Piece and kerf, largest first, by kind. */
  readonly sizesQuanta: readonly number[];
  readonly counts: readonly number[];
  readonly valueWeights: readonly number[];
  readonly capacities: readonly Capacity[];
  /** What pieces of the weight asked for take at the least, kerfs counted; 0 where that is not known. */
  readonly leastLoadQuanta: number;
}

/** One bar filled: which capacity, and how many of each kind. */
export interface FilledBar {
  readonly capacityIndex: number;
  readonly counts: readonly number[];
}

/** `unknown`: the work allowed did not settle it. */
export type WholeAnswer =
  | { readonly kind: 'packed'; readonly bars: readonly FilledBar[] }
  | { readonly kind: 'impossible' | 'unknown' };
