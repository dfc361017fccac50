/** What the readers of second-order packing are given. */
import type { Section } from '../../section.ts';

/** Packed numbers of a field of edition 1. */
export interface SecondOrderEdition1 {
  readonly bytes: Uint8Array;
  /** Section 4. */
  readonly data: Section;
  /** Section 3 that holds the bitmap; null when every point has a value. */
  readonly bitmap: Section | null;
  /**
   * Points of one line of the scan: ni, or nj where neighbours in the file lie on one meridian (scanning mode 32).
   * Null where lines differ in length or are not known. Only packing by rows and boustrophedonic order need it.
   */
  readonly linePointCount: number | null;
}

/** The same of a field of edition 2 in template 5.50001 or 5.50002: `data` is Section 7, the bitmap is in Section 6. */
export interface SecondOrderEdition2 extends SecondOrderEdition1 {
  /** Section 5. */
  readonly representation: Section;
}
