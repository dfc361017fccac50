import type { LimitId, WorkedStep } from '../windows/index.ts';
import { limitRules } from '../windows/index.ts';

/** Where one limit of a step breaks and where it is unknown. */
export interface LimitScan {
  readonly limit: LimitId;
  readonly unit: string;
  readonly noGo: number;
  /** First slot at or after i at which scenario w breaks it, or slotCount: `[w * slotCount + i]`. */
  readonly nextBroken: Int32Array;
  /** First slot at or after i at which some scenario does not hold the value, or slotCount. */
  readonly nextUnknown: Int32Array;
}

/** Scans every limit of a step by itself, at its no-go level. Wind that is not known counts as broken. */
export function limitScans(worked: WorkedStep): LimitScan[] {
  const { scenarioCount, pointCount } = worked.conditions.weather;
  return limitRules(worked).map((rule) => {
    // Weather is kept in single precision: a value equal to its limit must stay equal.
    const required = Math.fround(rule.noGo);
    const isBroken = (value: number): boolean => {
      if (Number.isNaN(value)) return rule.essential;
      return rule.sense === 'at-most' ? value > required : value < required;
    };
    const nextBroken = new Int32Array(scenarioCount * pointCount);
    const nextUnknown = new Int32Array(pointCount).fill(pointCount);
    for (let w = 0; w < scenarioCount; w++) {
      let hit = pointCount;
      for (let i = pointCount - 1; i >= 0; i--) {
        const value = rule.valueAt(w, i);
        if (isBroken(value)) hit = i;
        nextBroken[w * pointCount + i] = hit;
        if (Number.isNaN(value) && !rule.essential) nextUnknown[i] = i;
      }
    }
    for (let i = pointCount - 2; i >= 0; i--) nextUnknown[i] = Math.min(nextUnknown[i] ?? i, nextUnknown[i + 1] ?? i);
    return { limit: rule.id, unit: rule.unit, noGo: rule.noGo, nextBroken, nextUnknown };
  });
}
