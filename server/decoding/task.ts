import type { FramePart, GribField } from '../../lib/grib/index.ts';
import type { Result } from '../../lib/result/index.ts';

/** Values of the part, rows from south to north; NaN where missing. */
export type DecodedPart = Result<Float32Array>;

/** What a thread is started with: the files, in shared memory. */
export interface ThreadFiles {
  readonly files: readonly Uint8Array[];
}

/** What a thread is asked. */
export interface ThreadQuestion {
  readonly taskIndex: number;
  /** Which file, or the octets themselves. */
  readonly octets: number | Uint8Array;
  readonly field: GribField;
  readonly part: FramePart | null;
}

/** What it answers. */
export interface ThreadAnswer {
  readonly taskIndex: number;
  readonly decoded: DecodedPart;
}
