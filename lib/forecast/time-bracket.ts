import { MS_PER_H } from '../time/index.ts';
import type { Series } from './frame.ts';

/** Longest distance between two instants that a straight line may bridge: half a day hides no whole daily swing. Ours. */
export const LONGEST_STEP_H = 12;

/** Frames of a series around given times. */
export interface TimeBrackets {
  /** Earlier frame (or the one whose interval holds the time); -1: the series does not reach there. */
  readonly frameIndex: Int32Array;
  /** Weight of the frame after it; 0: the earlier frame alone. */
  readonly nextShare: Float64Array;
}

/** Where times lie between the frames of a series: linear for instants, held over the whole interval otherwise. */
export function bracketTimes(series: Series, epochMs: Float64Array): TimeBrackets {
  const ends = Float64Array.from(series.frames, (frame) => frame.endEpochMs);
  const brackets = { frameIndex: new Int32Array(epochMs.length), nextShare: new Float64Array(epochMs.length) };
  const bracketOne = series.kind === 'instant' ? bracketInstant : bracketInterval;
  let hintIndex = 0;
  for (let i = 0; i < epochMs.length; i++) {
    hintIndex = lastAtOrBefore(ends, epochMs[i] ?? Number.NaN, hintIndex);
    bracketOne({ series, ends, epochMs: epochMs[i] ?? Number.NaN, earlierIndex: hintIndex }, brackets, i);
  }
  return brackets;
}

/** Index of the last end at or before an instant, -1 before all; looks near `hintIndex` first, as times mostly ascend. */
function lastAtOrBefore(ends: Float64Array, atEpochMs: number, hintIndex: number): number {
  for (let index = hintIndex; index <= hintIndex + 1; index++) {
    const isLast = index < 0 || (ends[index] ?? Infinity) <= atEpochMs;
    if (isLast && atEpochMs < (ends[index + 1] ?? Infinity)) return index;
  }
  let [low, high] = [-1, ends.length - 1];
  while (low < high) {
    const middle = (low + high + 1) >> 1;
    if ((ends[middle] ?? Infinity) <= atEpochMs) low = middle;
    else high = middle - 1;
  }
  return low;
}

interface Asked {
  readonly series: Series;
  readonly ends: Float64Array;
  readonly epochMs: number;
  /** Last frame that ends at or before. */
  readonly earlierIndex: number;
}

function bracketInstant({ ends, epochMs, earlierIndex }: Asked, into: TimeBrackets, i: number): void {
  const earlier = ends[earlierIndex];
  const next = ends[earlierIndex + 1];
  into.frameIndex[i] = -1;
  if (earlier === undefined) return;
  if (epochMs === earlier) {
    into.frameIndex[i] = earlierIndex;
    return;
  }
  if (next === undefined || next - earlier > LONGEST_STEP_H * MS_PER_H) return;
  into.frameIndex[i] = earlierIndex;
  into.nextShare[i] = (epochMs - earlier) / (next - earlier);
}

/** The first interval that ends after the time, if it has begun; the very end belongs to the last interval. */
function bracketInterval({ series, ends, epochMs, earlierIndex }: Asked, into: TimeBrackets, i: number): void {
  const next = series.frames[earlierIndex + 1];
  const isHeld = next !== undefined && next.startEpochMs <= epochMs;
  const endsNow = earlierIndex >= 0 && ends[earlierIndex] === epochMs;
  into.frameIndex[i] = isHeld ? earlierIndex + 1 : endsNow ? earlierIndex : -1;
}
