/** A line of figures: what it is, the figure, and what belongs to it. */
export interface Fact {
  readonly term: string;
  readonly figure: string;
  readonly rest: string;
  /** A second, smaller line. */
  readonly below?: string;
}
