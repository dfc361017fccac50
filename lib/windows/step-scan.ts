import type { Conditions } from '../voyage/index.ts';
import type { LimitRule, LimitValues, WorkedStep } from './limit-rule.ts';
import { LIMIT_IDS, workedKey } from './limit-rule.ts';
import { limitRules } from './limit-rules.ts';

/** Where a step's limits break, for every scenario and slot. */
export interface StepScan {
  /** First slot at or after i at which a known limit is broken in scenario w, or slotCount: `[w * slotCount + i]`. */
  readonly nextBroken: Int32Array;
  /** First slot at or after i at which some limit is unknown, or slotCount. */
  readonly nextUnknown: Int32Array;
  /** Bits (LIMIT_IDS order) of the limits unknown at slot i. */
  readonly unknownBits: Uint32Array;
}

const kept = new WeakMap<Conditions, Map<string, StepScan>>();

/**
 * Scans a step once, so that any period can then be judged in one look-up per scenario. Steps with the same limits, at
 * the same place, under the same handling share a scan.
 */
export function scanStep(worked: WorkedStep, limitRatio: number): StepScan {
  const scans = kept.get(worked.conditions) ?? new Map<string, StepScan>();
  kept.set(worked.conditions, scans);
  const key = `${workedKey(worked)} ${limitRatio}`;
  const scan = scans.get(key) ?? freshScan(worked, limitRatio);
  scans.set(key, scan);
  return scan;
}

/** What is broken and what is unknown, slot by slot. */
interface Marks {
  readonly scenarioCount: number;
  readonly pointCount: number;
  /** 1 where a limit is broken: `[w * pointCount + i]`. */
  readonly broken: Uint8Array;
  /** 1 where a limit is broken that all scenarios share. */
  readonly brokenInAll: Uint8Array;
  readonly unknownBits: Uint32Array;
}

function freshScan(worked: WorkedStep, limitRatio: number): StepScan {
  const { scenarioCount, pointCount } = worked.conditions.weather;
  const marks: Marks = {
    scenarioCount,
    pointCount,
    broken: new Uint8Array(scenarioCount * pointCount),
    brokenInAll: new Uint8Array(pointCount),
    unknownBits: new Uint32Array(pointCount),
  };
  for (const rule of limitRules(worked)) markRule(rule, limitRatio, marks);
  return {
    nextBroken: nextBrokenOf(marks),
    nextUnknown: nextUnknownOf(marks.unknownBits),
    unknownBits: marks.unknownBits,
  };
}

function markRule(rule: LimitRule, limitRatio: number, marks: Marks): void {
  // Weather is kept in single precision: a value equal to its limit must stay equal.
  const required = Math.fround(rule.tightens ? rule.noGo * limitRatio : rule.noGo);
  const { values } = rule;
  const broken = rule.isShared ? marks.brokenInAll : marks.broken;
  if (holdsEverywhere(rule, required)) return;
  const mark = (k: number): void => {
    if (rule.essential || !Number.isNaN(values[k] ?? Number.NaN)) broken[k] = 1;
    else {
      const i = k % marks.pointCount;
      marks.unknownBits[i] = ((marks.unknownBits[i] ?? 0) | (1 << LIMIT_IDS.indexOf(rule.id))) >>> 0;
    }
  };
  // Written so that an unknown value fails the comparison.
  if (rule.sense === 'at-most') {
    for (let k = 0; k < values.length; k++) if (!((values[k] ?? Number.NaN) <= required)) mark(k);
  } else {
    for (let k = 0; k < values.length; k++) if (!((values[k] ?? Number.NaN) >= required)) mark(k);
  }
}

type Extremes = readonly [least: number, most: number];

const extremesOf = new WeakMap<LimitValues, Extremes>();

/** Most limits are nowhere near the weather: one look at its extremes, kept for all jobs, settles them. */
function holdsEverywhere(rule: LimitRule, required: number): boolean {
  let extremes = extremesOf.get(rule.values);
  if (extremes === undefined) {
    extremes = findExtremes(rule.values);
    extremesOf.set(rule.values, extremes);
  }
  const [least, most] = extremes;
  return rule.sense === 'at-most' ? most <= required : least >= required;
}

/** NaN, which no limit holds, where some value is unknown. */
function findExtremes(values: LimitValues): Extremes {
  let least = Infinity;
  let most = -Infinity;
  for (let k = 0; k < values.length; k++) {
    const value = values[k] ?? Number.NaN;
    if (Number.isNaN(value)) return [Number.NaN, Number.NaN];
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return [least, most];
}

function nextBrokenOf({ scenarioCount, pointCount, broken, brokenInAll }: Marks): Int32Array {
  const next = new Int32Array(scenarioCount * pointCount);
  for (let w = 0; w < scenarioCount; w++) {
    const first = w * pointCount;
    let hitSlot = pointCount;
    for (let i = pointCount - 1; i >= 0; i--) {
      if (((broken[first + i] ?? 0) | (brokenInAll[i] ?? 0)) !== 0) hitSlot = i;
      next[first + i] = hitSlot;
    }
  }
  return next;
}

function nextUnknownOf(unknownBits: Uint32Array): Int32Array {
  const next = new Int32Array(unknownBits.length);
  let hitSlot = unknownBits.length;
  for (let i = unknownBits.length - 1; i >= 0; i--) {
    if (unknownBits[i] !== 0) hitSlot = i;
    next[i] = hitSlot;
  }
  return next;
}
