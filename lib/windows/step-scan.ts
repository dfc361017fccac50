import type { LimitRule, WorkedStep } from './limit-rules.ts';
import { LIMIT_IDS, limitRules } from './limit-rules.ts';

/** Where a step's limits break, for every scenario and slot. */
export interface StepScan {
  /** First slot at or after i at which a known limit is broken in scenario w, or slotCount: `[w * slotCount + i]`. */
  readonly nextBroken: Int32Array;
  /** First slot at or after i at which some limit is unknown, or slotCount. */
  readonly nextUnknown: Int32Array;
  /** Bits (LIMIT_IDS order) of the limits unknown at slot i. */
  readonly unknownBits: Uint32Array;
}

type Scans = WeakMap<WorkedStep['step'], Map<string, StepScan>>;
const kept = new WeakMap<WorkedStep['conditions'], Scans>();

/** Scans a step once, so that any period can then be judged in one look-up per scenario; a scan made before is reused. */
export function scanStep(worked: WorkedStep, limitRatio: number): StepScan {
  const scans: Scans = kept.get(worked.conditions) ?? new WeakMap();
  kept.set(worked.conditions, scans);
  const ofStep = scans.get(worked.step) ?? new Map<string, StepScan>();
  scans.set(worked.step, ofStep);
  const key = `${worked.handling.id} ${worked.sailStateId} ${limitRatio} ${worked.steadyingWindRule}`;
  const scan = ofStep.get(key) ?? freshScan(worked, limitRatio);
  ofStep.set(key, scan);
  return scan;
}

function freshScan(worked: WorkedStep, limitRatio: number): StepScan {
  const { scenarioCount, pointCount } = worked.conditions.weather;
  const broken = new Uint8Array(scenarioCount * pointCount);
  const unknownBits = new Uint32Array(pointCount);
  for (const rule of limitRules(worked))
    markBroken(rule, { limitRatio, scenarioCount, pointCount, broken, unknownBits });
  const nextBroken = new Int32Array(scenarioCount * pointCount);
  for (let w = 0; w < scenarioCount; w++) {
    fillNext(nextBroken.subarray(w * pointCount, (w + 1) * pointCount), (i) => broken[w * pointCount + i] === 1);
  }
  const nextUnknown = new Int32Array(pointCount);
  fillNext(nextUnknown, (i) => unknownBits[i] !== 0);
  return { nextBroken, nextUnknown, unknownBits };
}

function markBroken(
  rule: LimitRule,
  into: { limitRatio: number; scenarioCount: number; pointCount: number; broken: Uint8Array; unknownBits: Uint32Array },
): void {
  // Weather is kept in single precision: a value equal to its limit must stay equal.
  const required = Math.fround(rule.tightens ? rule.noGo * into.limitRatio : rule.noGo);
  const bit = 1 << LIMIT_IDS.indexOf(rule.id);
  for (let w = 0; w < into.scenarioCount; w++) {
    for (let i = 0; i < into.pointCount; i++) {
      const value = rule.valueAt(w, i);
      if (Number.isNaN(value)) {
        if (rule.essential) into.broken[w * into.pointCount + i] = 1;
        else into.unknownBits[i] = (into.unknownBits[i] ?? 0) | bit;
      } else if (rule.sense === 'at-most' ? value > required : value < required) {
        into.broken[w * into.pointCount + i] = 1;
      }
    }
  }
}

function fillNext(next: Int32Array, isHit: (i: number) => boolean): void {
  let hit = next.length;
  for (let i = next.length - 1; i >= 0; i--) {
    if (isHit(i)) hit = i;
    next[i] = hit;
  }
}
