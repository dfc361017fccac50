import { slotEpochMs } from '../time/index.ts';
import type { SlotSpan } from './window-table.ts';
import type { LimitRule, WorkedStep } from './limit-rule.ts';
import type { MarginRow, StandardCriterion } from './margin-rows.ts';
import { marginRows } from './margin-rows.ts';

/** The tightest moment of one limit over a period, in the median scenario. */
export interface LimitMargin {
  readonly limit: LimitRule['id'];
  readonly observed: number;
  readonly required: number;
  readonly unit: string;
  /** Room on the safe side in `unit`; negative: beyond. */
  readonly margin: number;
  /** Room in standard deviations of the forecast error; null where error is not the question (light). */
  readonly marginSd: number | null;
  readonly atEpochMs: number;
  /** α-factor method: forecast <= α · limit at every instant; null where it does not apply. */
  readonly standard: StandardCriterion | null;
}

/**
 * Margins of every known limit of a step between two slots, both included, tightest first (by standard deviations;
 * limits without an error, only when broken, come before all).
 */
export function stepMargins(worked: WorkedStep, span: SlotSpan): LimitMargin[] {
  const margins = marginRows(worked).flatMap((row) => {
    const margin = rowMargin(row, worked, span);
    return margin === null ? [] : [margin];
  });
  return margins.toSorted(tightestFirst);
}

/** Least room of a step between two slots, as `urgencySd` has it; greater than all others where no limit is known. */
export function stepRoomSd(worked: WorkedStep, span: SlotSpan): number {
  let leastSd = Number.MAX_SAFE_INTEGER;
  for (const { rule, room, leastRoom } of marginRows(worked)) {
    const least = room[leastRoom(span.fromSlot, span.toSlot)] ?? Infinity;
    if (least === Infinity) continue;
    leastSd = Math.min(leastSd, rule.sdAt === null ? urgencyWithoutError(least) : least);
  }
  return leastSd;
}

/** Order of urgency: see stepMargins. */
export function tightestFirst(a: LimitMargin, b: LimitMargin): number {
  return urgencySd(a) - urgencySd(b);
}

/** Room in standard deviations, or none at all where a limit without an error is broken. */
export function urgencySd(margin: LimitMargin): number {
  return margin.marginSd ?? urgencyWithoutError(margin.margin);
}

const urgencyWithoutError = (margin: number): number =>
  margin < 0 ? -Number.MAX_SAFE_INTEGER : Number.MAX_SAFE_INTEGER;

function rowMargin(row: MarginRow, worked: WorkedStep, span: SlotSpan): LimitMargin | null {
  const { rule, medians, room, leastRoom } = row;
  const i = leastRoom(span.fromSlot, span.toSlot);
  const least = room[i] ?? Infinity;
  if (least === Infinity) return null;
  const observed = medians[i] ?? Number.NaN;
  return {
    limit: rule.id,
    observed,
    required: rule.noGo,
    unit: rule.unit,
    margin: rule.sense === 'at-most' ? rule.noGo - observed : observed - rule.noGo,
    marginSd: rule.sdAt === null ? null : least,
    atEpochMs: slotEpochMs(worked.conditions.course.grid, i),
    standard: rule.sdAt === null ? null : row.standard(span.fromSlot, span.toSlot),
  };
}
