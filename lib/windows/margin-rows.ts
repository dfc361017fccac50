import type { Conditions } from '../voyage/index.ts';
import { alphaRatio } from '../weather/index.ts';
import type { LimitRule, WorkedStep } from './limit-rule.ts';
import { workedKey } from './limit-rule.ts';
import { limitRules } from './limit-rules.ts';
import type { RangeLeast } from './range-least.ts';
import { rangeLeast } from './range-least.ts';
import { scenarioMedians } from './scenario-medians.ts';

/** The α-factor method over a period: the least α, and whether the forecast stays within α · limit throughout. */
export interface StandardCriterion {
  readonly alphaRatio: number;
  readonly met: boolean;
}

/** Room of one limit at every slot, in the median scenario. */
export interface MarginRow {
  readonly rule: LimitRule;
  readonly medians: Float32Array;
  /** Room in standard deviations where the limit has a forecast error, else in its unit; Infinity: unknown. */
  readonly room: Float64Array;
  readonly leastRoom: RangeLeast;
  /** α-factor method over a span of slots, both included, at its known instants. */
  readonly standard: (fromSlot: number, toSlot: number) => StandardCriterion;
}

const kept = new WeakMap<Conditions, Map<string, readonly MarginRow[]>>();

/** Rows of every limit of a step; worked out once for all steps that share limits, place and handling. */
export function marginRows(worked: WorkedStep): readonly MarginRow[] {
  const rows = kept.get(worked.conditions) ?? new Map<string, readonly MarginRow[]>();
  kept.set(worked.conditions, rows);
  const key = `${workedKey(worked)} ${worked.baseEpochMs}`;
  const known = rows.get(key);
  if (known !== undefined) return known;
  const made = limitRules(worked).map((rule) => marginRow(rule, worked.conditions));
  rows.set(key, made);
  return made;
}

function marginRow(rule: LimitRule, conditions: Conditions): MarginRow {
  const medians = rule.isShared ? Float32Array.from(rule.values) : scenarioMedians(rule.values, conditions.weather);
  const room = new Float64Array(medians.length);
  for (const [i, observed] of medians.entries()) {
    const margin = rule.sense === 'at-most' ? rule.noGo - observed : observed - rule.noGo;
    const inItsMeasure = rule.sdAt === null ? margin : margin / rule.sdAt(observed, i);
    room[i] = Number.isNaN(observed) ? Infinity : inItsMeasure;
  }
  return { rule, medians, room, leastRoom: rangeLeast(room), standard: standardOf(rule, medians) };
}

/** The rows of the standard are made when first asked for: most are not. */
function standardOf(rule: LimitRule, medians: Float32Array): MarginRow['standard'] {
  let rows: { alphas: Float64Array; leastAlpha: RangeLeast; excess: Float64Array; leastExcess: RangeLeast } | null =
    null;
  return (fromSlot, toSlot) => {
    rows ??= standardRows(rule, medians);
    return {
      alphaRatio: rows.alphas[rows.leastAlpha(fromSlot, toSlot)] ?? 1,
      met: (rows.excess[rows.leastExcess(fromSlot, toSlot)] ?? 0) >= 0,
    };
  };
}

function standardRows(rule: LimitRule, medians: Float32Array) {
  // An unknown instant asks for nothing: all of the limit, and met.
  const alphas = new Float64Array(medians.length).fill(1);
  const excess = new Float64Array(medians.length);
  for (const [i, observed] of medians.entries()) {
    if (Number.isNaN(observed) || rule.sdAt === null) continue;
    const alpha = alphaRatio({ errorOverLimitRatio: rule.sdAt(observed, i) / rule.noGo });
    alphas[i] = alpha;
    excess[i] = observed <= alpha * rule.noGo ? 0 : -1;
  }
  return { alphas, leastAlpha: rangeLeast(alphas), excess, leastExcess: rangeLeast(excess) };
}
