import { slotEpochMs } from '../time/index.ts';
import { alphaRatio } from '../weather/index.ts';
import type { LimitRule, WorkedStep } from './limit-rules.ts';
import { limitRules } from './limit-rules.ts';

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
  readonly standard: { readonly alphaRatio: number; readonly met: boolean } | null;
}

/**
 * Margins of every known limit of a step between two slots, both included, tightest first (by standard deviations;
 * limits without an error, only when broken, come before all).
 */
export function stepMargins(worked: WorkedStep, span: { fromSlot: number; toSlot: number }): LimitMargin[] {
  const margins = observedMedians(worked).flatMap((observed) => {
    const margin = ruleMargin(observed, worked, span);
    return margin === null ? [] : [margin];
  });
  return margins.toSorted(tightestFirst);
}

/** A limit and its median over the scenarios at every slot. */
interface ObservedRule {
  readonly rule: LimitRule;
  readonly medians: Float32Array;
}

type Observed = WeakMap<WorkedStep['step'], Map<string, readonly ObservedRule[]>>;
const kept = new WeakMap<WorkedStep['conditions'], Observed>();

/** Medians of every limit of a step; worked out once for a step under a handling. */
function observedMedians(worked: WorkedStep): readonly ObservedRule[] {
  const observed: Observed = kept.get(worked.conditions) ?? new WeakMap();
  kept.set(worked.conditions, observed);
  const ofStep = observed.get(worked.step) ?? new Map<string, readonly ObservedRule[]>();
  observed.set(worked.step, ofStep);
  const key = `${worked.handling.id} ${worked.sailStateId} ${worked.steadyingWindRule}`;
  const { scenarioCount, pointCount } = worked.conditions.weather;
  const rules =
    ofStep.get(key) ??
    limitRules(worked).map((rule) => ({
      rule,
      medians: Float32Array.from({ length: pointCount }, (_, i) => medianOf(rule, scenarioCount, i)),
    }));
  ofStep.set(key, rules);
  return rules;
}

/** Order of urgency: see stepMargins. */
export function tightestFirst(a: LimitMargin, b: LimitMargin): number {
  return urgencySd(a) - urgencySd(b);
}

/** Room in standard deviations, or none at all where a limit without an error is broken. */
export function urgencySd(margin: LimitMargin): number {
  if (margin.marginSd !== null) return margin.marginSd;
  return margin.margin < 0 ? -Number.MAX_SAFE_INTEGER : Number.MAX_SAFE_INTEGER;
}

function ruleMargin(
  { rule, medians }: ObservedRule,
  worked: WorkedStep,
  span: { fromSlot: number; toSlot: number },
): LimitMargin | null {
  const { grid } = worked.conditions.course;
  let tightest: LimitMargin | null = null;
  let standardMet = true;
  let leastAlphaRatio = 1;
  for (let i = span.fromSlot; i <= span.toSlot; i++) {
    const observed = medians[i] ?? Number.NaN;
    if (Number.isNaN(observed)) continue;
    const errorSd = rule.sdAt === null ? null : rule.sdAt(observed, i);
    const margin = rule.sense === 'at-most' ? rule.noGo - observed : observed - rule.noGo;
    if (errorSd !== null) {
      const alpha = alphaRatio({ errorOverLimitRatio: errorSd / rule.noGo });
      leastAlphaRatio = Math.min(leastAlphaRatio, alpha);
      standardMet &&= observed <= alpha * rule.noGo;
    }
    const marginSd = errorSd === null ? null : margin / errorSd;
    const tighter = tightest === null || (marginSd ?? margin) < (tightest.marginSd ?? tightest.margin);
    if (tighter) {
      const atEpochMs = slotEpochMs(grid, i);
      tightest = {
        limit: rule.id,
        observed,
        required: rule.noGo,
        unit: rule.unit,
        margin,
        marginSd,
        atEpochMs,
        standard: null,
      };
    }
  }
  if (tightest === null || rule.sdAt === null) return tightest;
  return { ...tightest, standard: { alphaRatio: leastAlphaRatio, met: standardMet } };
}

function medianOf(rule: LimitRule, scenarioCount: number, i: number): number {
  const values: number[] = [];
  for (let w = 0; w < scenarioCount; w++) {
    const value = rule.valueAt(w, i);
    if (!Number.isNaN(value)) values.push(value);
  }
  if (values.length === 0) return Number.NaN;
  values.sort((a, b) => a - b);
  const middle = (values.length - 1) / 2;
  return ((values[Math.floor(middle)] ?? 0) + (values[Math.ceil(middle)] ?? 0)) / 2;
}
