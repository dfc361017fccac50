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
  const brackets = { frameIndex: new Int32Array(epochMs.length), nextShare: new Float64Array(epochMs.length) };
  const bracket = series.kind === 'instant' ? bracketInstants : bracketIntervals;
  bracket(frameTimes(series), epochMs, brackets);
  return brackets;
}

interface FrameTimes {
  readonly starts: Float64Array;
  readonly ends: Float64Array;
}

/** A series is asked once for every scenario: its times are laid out once. */
const timesOfSeries = new WeakMap<Series, FrameTimes>();

function frameTimes(series: Series): FrameTimes {
  const known = timesOfSeries.get(series);
  if (known !== undefined) return known;
  const times = {
    starts: Float64Array.from(series.frames, (frame) => frame.startEpochMs),
    ends: Float64Array.from(series.frames, (frame) => frame.endEpochMs),
  };
  timesOfSeries.set(series, times);
  return times;
}

function bracketInstants({ ends }: FrameTimes, epochMs: Float64Array, into: TimeBrackets): void {
  let earlierIndex = 0;
  for (let i = 0; i < epochMs.length; i++) {
    const at = epochMs[i] ?? Number.NaN;
    earlierIndex = lastAtOrBefore(ends, at, earlierIndex);
    const earlier = ends[earlierIndex] ?? Number.NaN;
    const stepMs = (ends[earlierIndex + 1] ?? Number.NaN) - earlier;
    const isBridged = stepMs <= LONGEST_STEP_H * MS_PER_H;
    into.frameIndex[i] = isBridged || at === earlier ? earlierIndex : -1;
    into.nextShare[i] = isBridged ? (at - earlier) / stepMs : 0;
  }
}

/** The first interval that ends after the time, if it has begun; the very end belongs to the last interval. */
function bracketIntervals({ starts, ends }: FrameTimes, epochMs: Float64Array, into: TimeBrackets): void {
  let earlierIndex = 0;
  for (let i = 0; i < epochMs.length; i++) {
    const at = epochMs[i] ?? Number.NaN;
    earlierIndex = lastAtOrBefore(ends, at, earlierIndex);
    const isHeld = (starts[earlierIndex + 1] ?? Infinity) <= at;
    into.frameIndex[i] = isHeld ? earlierIndex + 1 : ends[earlierIndex] === at ? earlierIndex : -1;
  }
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
