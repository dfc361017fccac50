import type { GridFrame } from '../grib/index.ts';

/** Values of one quantity at an instant, or over an interval; missing ones are NaN. */
export interface Frame {
  /** The instant, or the start of the interval. */
  readonly startEpochMs: number;
  /** The instant, or the end of the interval. */
  readonly endEpochMs: number;
  readonly grid: GridFrame;
  /** The value, or the component toward east. */
  readonly first: Float32Array;
  /** The component toward north; null for a single value. */
  readonly second: Float32Array | null;
}

/** Frames of one quantity in one member, by end time. */
export interface Series {
  /** `instant`: linear between frames; `interval`: a value holds over its whole interval. */
  readonly kind: 'instant' | 'interval';
  readonly frames: readonly Frame[];
}
