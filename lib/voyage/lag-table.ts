import type { MeasuredTrack } from '../track/index.ts';
import type { Conditions, ConditionsInput } from './conditions.ts';
import { conditionsAlong } from './conditions.ts';
import type { Course } from './course.ts';
import { courseBehind, sliceCourse } from './course.ts';
import type { SailedAs } from './lost-distance.ts';
import { lostNmSums } from './lost-distance.ts';

/** What the boat meets when it is so many miles behind the nominal voyage; entries are worked out when first asked for. */
export interface LagTable {
  conditionsAt(lagNm: number): Conditions;
  /** Index of the entry that serves a lag. */
  indexOf(lagNm: number): number;
  /** Miles lost from slot `fromSlot` to slot `toSlot` when sailed in this way, starting `lagNm` behind. */
  lostNm(lagNm: number, sailed: SailedSpan): number;
}

export interface SailedSpan extends SailedAs {
  readonly fromSlot: number;
  readonly toSlot: number;
}

export interface LagTableInput extends Omit<ConditionsInput, 'course'> {
  readonly nominal: Course;
  readonly track: MeasuredTrack;
  /** Slots reckoned for a boat that is behind; the nominal voyage itself is reckoned to its end. */
  readonly lateSlotCount: number;
}

/** Step between entries: below the spacing of any forecast grid, and a quarter of the miles a front moves in an hour. */
const STEP_NM = 8;

/**
 * A table of conditions by lag, without an upper end: no plan can run out of it. A lag below zero (a handling that
 * happens to gain) is served by entry 0.
 */
export function lagTable(input: LagTableInput): LagTable {
  const conditions = new Map<number, Conditions>();
  const lost = new Map<string, Float64Array>();
  const indexOf = (lagNm: number): number => Math.max(0, Math.round(lagNm / STEP_NM));
  const conditionsAt = (lagNm: number): Conditions => {
    const index = indexOf(lagNm);
    let found = conditions.get(index);
    if (!found) {
      const nominal =
        index === 0 ? input.nominal : sliceCourse(input.nominal, { fromSlot: 0, slotCount: input.lateSlotCount });
      found = conditionsAlong({ ...input, course: courseBehind(nominal, input.track, index * STEP_NM) });
      conditions.set(index, found);
    }
    return found;
  };
  const lostNm = (lagNm: number, sailed: SailedSpan): number => {
    const key = `${indexOf(lagNm)} ${sailed.handling?.id ?? ''} ${sailed.sailStateId}`;
    let sums = lost.get(key);
    if (!sums) {
      sums = lostNmSums(conditionsAt(lagNm), input.nominal.alongNm, sailed);
      lost.set(key, sums);
    }
    return sumAt(sums, sailed.toSlot) - sumAt(sums, sailed.fromSlot);
  };
  return { conditionsAt, indexOf, lostNm };
}

/** Beyond the slots reckoned nothing more is known to be lost. */
const sumAt = (sums: Float64Array, slotIndex: number): number => sums[Math.min(slotIndex, sums.length - 1)] ?? 0;
