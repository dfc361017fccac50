/** A number with its unit and where it comes from. */
export interface Constant {
  readonly value: number;
  readonly unit: string;
  /** Title of the published source, or `common practice, no source`. */
  readonly provenance: string;
}
