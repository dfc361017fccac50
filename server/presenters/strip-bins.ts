import type { TimeAxis, TimeSpan, ValueLane } from './strip-model.ts';

/** Points drawn per curve at most; more would not be seen. */
const MOST_POINTS = 220;

/** Slots gathered so that a curve has few points and loses no peak. */
export interface Bins {
  readonly epochMs: readonly number[];
  readonly starts: readonly number[];
  readonly sizeCount: number;
}

/** Which value of a bin is drawn. */
type Kept = 'first' | 'least' | 'most';

export function binsOf(slotEpochMs: Float64Array, axis: Pick<TimeAxis, 'toEpochMs'>): Bins {
  const slots = Array.from(slotEpochMs);
  const shownCount = slots.filter((epochMs) => epochMs <= axis.toEpochMs).length;
  const sizeCount = Math.max(1, Math.ceil(shownCount / MOST_POINTS));
  const starts = slots.flatMap((epochMs, i) => (i % sizeCount === 0 && epochMs <= axis.toEpochMs ? [i] : []));
  return { starts, sizeCount, epochMs: starts.map((i) => slots[i] ?? 0) };
}

/** One value for each bin; null: unknown where the bin begins. */
export function gathered(values: Float32Array, bins: Bins, kept: Kept): (number | null)[] {
  return bins.starts.map((start) => {
    const known = Array.from(values.subarray(start, start + bins.sizeCount)).filter((value) => !Number.isNaN(value));
    if (known.length === 0 || Number.isNaN(values[start])) return null;
    if (kept === 'first') return known[0] ?? null;
    return kept === 'least' ? Math.min(...known) : Math.max(...known);
  });
}

/** Where the last curve of a lane has no value; each span reaches to the next known point. */
export function unknownSpans(lane: Pick<ValueLane, 'curves' | 'epochMs'>): TimeSpan[] {
  const values = lane.curves.at(-1)?.values ?? [];
  const spans: TimeSpan[] = [];
  values.forEach((value, i) => {
    if (value !== null) return;
    const fromEpochMs = lane.epochMs[i] ?? 0;
    const toEpochMs = lane.epochMs[i + 1] ?? fromEpochMs;
    const last = spans.at(-1);
    if (last?.toEpochMs === fromEpochMs) spans[spans.length - 1] = { ...last, toEpochMs };
    else if (toEpochMs > fromEpochMs) spans.push({ fromEpochMs, toEpochMs });
  });
  return spans;
}
