import { MS_PER_H, type UtcInterval } from '../../time/index.ts';

/** The part of an interval that lies within another; null when none does. */
function partWithin(rest: UtcInterval, within: UtcInterval): UtcInterval | null {
  const startEpochMs = Math.max(rest.startEpochMs, within.startEpochMs);
  const endEpochMs = Math.min(rest.endEpochMs, within.endEpochMs);
  return endEpochMs > startEpochMs ? { startEpochMs, endEpochMs } : null;
}

/** The parts of rests that lie within an interval, in their order. */
const partsWithin = (rests: readonly UtcInterval[], within: UtcInterval): readonly UtcInterval[] =>
  rests.flatMap((rest) => partWithin(rest, within) ?? []);

/** Rests in the order of time, as far as they lie within the record; those that touch or overlap are one. */
export function restsOf(rests: readonly UtcInterval[], within: UtcInterval): readonly UtcInterval[] {
  const sorted = partsWithin(rests, within).toSorted((a, b) => a.startEpochMs - b.startEpochMs);
  const joined: UtcInterval[] = [];
  for (const rest of sorted) {
    const last = joined.at(-1);
    if (last === undefined || rest.startEpochMs > last.endEpochMs) joined.push(rest);
    else joined[joined.length - 1] = { ...last, endEpochMs: Math.max(last.endEpochMs, rest.endEpochMs) };
  }
  return joined;
}

/** Milliseconds are summed, not hours: thirds of an hour would not add up to a whole one. */
const lengthMs = ({ startEpochMs, endEpochMs }: UtcInterval): number => endEpochMs - startEpochMs;

export const lengthH = (interval: UtcInterval): number => lengthMs(interval) / MS_PER_H;

/** Hours of rest in an interval; `rests` do not overlap. */
const restH = (rests: readonly UtcInterval[], within: UtcInterval): number =>
  partsWithin(rests, within).reduce((sumMs, part) => sumMs + lengthMs(part), 0) / MS_PER_H;

/**
 * Least hours of rest in any window of a length that lies wholly in the record; null: the record is shorter.
 *
 * The rest in a sliding window falls only while its start is in a rest and its end is not. It stops falling when the
 * rest at its start ends, or keeps its value from then until it does. The least is therefore found where a window
 * begins at the end of a rest, or at an end of the record.
 */
export function leastRestH(rests: readonly UtcInterval[], within: UtcInterval, windowH: number): number | null {
  const windowMs = windowH * MS_PER_H;
  const lastStartMs = within.endEpochMs - windowMs;
  if (!(lastStartMs >= within.startEpochMs)) return null;
  const starts = [within.startEpochMs, lastStartMs, ...rests.map((rest) => rest.endEpochMs)];
  const inRecord = starts.filter((start) => start <= lastStartMs);
  return Math.min(...inRecord.map((start) => restH(rests, { startEpochMs: start, endEpochMs: start + windowMs })));
}

/** Lengths [ms] of the rests in each 24 h that end where a rest begins, longest first; only 24 h wholly in the record. */
export function daysBeforeRests(rests: readonly UtcInterval[], within: UtcInterval): readonly (readonly number[])[] {
  return rests
    .map((rest) => ({ startEpochMs: rest.startEpochMs - 24 * MS_PER_H, endEpochMs: rest.startEpochMs }))
    .filter((day) => day.startEpochMs >= within.startEpochMs)
    .map((day) =>
      partsWithin(rests, day)
        .map(lengthMs)
        .toSorted((a, b) => b - a),
    );
}
