/** Sentences about how a forecast was put together. */
import type { GribField } from '../grib/index.ts';
import { formatUtc, MS_PER_H } from '../time/index.ts';
import type { SingleFields } from './choose-duplicates.ts';
import type { Series } from './frame.ts';
import { quantityOf, type QuantityId } from './quantity.ts';
import { LONGEST_STEP_H } from './time-bracket.ts';

/** Means, spreads and probabilities of an ensemble cannot stand for its members. */
export function memberNotes(fields: readonly GribField[]): string[] {
  const derivedCount = fields.filter((field) => field.derived !== null).length;
  return derivedCount === 0
    ? []
    : [`${derivedCount} fields are means or spreads of an ensemble; they are not used, only its members are.`];
}

/** Fields that came more than once. */
export function repeatNotes(quantity: QuantityId, single: SingleFields): string[] {
  const { name } = quantityOf(quantity);
  const notes: string[] = [];
  if (single.repeatedCount > 0) notes.push(`${name}: ${single.repeatedCount} repeated fields are left out.`);
  if (single.otherGridCount > 0)
    notes.push(
      `${name}: ${single.otherGridCount} fields are left out, because the same hours are there on a better grid.`,
    );
  return notes;
}

/** Gaps too long to draw a straight line across, in the series with the fewest. */
export function gapNotes(quantity: QuantityId, members: ReadonlyMap<string, Series>): string[] {
  const gaps = [...members.values()].map(longGaps).toSorted((a, b) => a.length - b.length)[0] ?? [];
  return gaps.map(
    ({ fromEpochMs, toEpochMs }) =>
      `${quantityOf(quantity).name}: nothing between ${formatUtc(fromEpochMs)} and ${formatUtc(toEpochMs)} ` +
      `(${Math.round((toEpochMs - fromEpochMs) / MS_PER_H)} h); these hours are unknown.`,
  );
}

function longGaps({ kind, frames }: Series): { fromEpochMs: number; toEpochMs: number }[] {
  return frames.slice(1).flatMap((frame, i) => {
    const fromEpochMs = frames[i]?.endEpochMs ?? frame.startEpochMs;
    const toEpochMs = kind === 'instant' ? frame.endEpochMs : frame.startEpochMs;
    return toEpochMs - fromEpochMs > LONGEST_STEP_H * MS_PER_H ? [{ fromEpochMs, toEpochMs }] : [];
  });
}
