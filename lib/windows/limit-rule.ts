import type { Handling } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';
import type { Conditions } from '../voyage/index.ts';

export const LIMIT_IDS = [
  'deck-wind',
  'deck-gust',
  'sea-height',
  'steepness',
  'handling-wind',
  'handling-sea',
  'daylight',
  'rain',
  'air-temperature',
  'sea-temperature',
  'steadying-wind',
  'highest-wave',
  'visibility',
  'dry-spell',
] as const;
export type LimitId = (typeof LIMIT_IDS)[number];

/** Values of a limit at the slots of a course. */
export type LimitValues = Float32Array | Float64Array;

/** One thing that must hold at every slot instant of a reference period. */
export interface LimitRule {
  readonly id: LimitId;
  readonly unit: string;
  readonly noGo: number;
  readonly sense: 'at-most' | 'at-least';
  /** Tightened by `planningLimitRatio` while a plan is searched. */
  readonly tightens: boolean;
  /** Unknown counts as broken (the wind itself), not as conditional. */
  readonly essential: boolean;
  /** `[w * pointCount + i]`, or one row of `pointCount` for all scenarios; NaN: the forecast does not hold it. */
  readonly values: LimitValues;
  readonly isShared: boolean;
  /** Value in scenario w at slot i; NaN: the forecast does not hold it. */
  readonly valueAt: (w: number, i: number) => number;
  /** Standard deviation of the forecast error of a value at slot i, in `unit`; null: not a matter of forecast error. */
  readonly sdAt: ((value: number, i: number) => number) | null;
}

/** A step worked under a handling, in one set of conditions. */
export interface WorkedStep {
  readonly step: Step;
  readonly handling: Handling;
  readonly sailStateId: string;
  readonly conditions: Conditions;
  readonly baseEpochMs: number;
  readonly steadyingWindRule: boolean;
}

const figuresKeys = new WeakMap<Step, string>();

/**
 * What the limits and the pace of a worked step depend on, besides the conditions, as text: steps of one key share scans
 * and margins.
 */
export function workedKey({ step, handling, sailStateId, steadyingWindRule }: Omit<WorkedStep, 'conditions'>): string {
  let figures = figuresKeys.get(step);
  if (figures === undefined) {
    const { byEye: _seen, ...limits } = step.limits;
    figures = JSON.stringify([step.place, limits], (_, value: unknown) =>
      // JSON has no infinity: as text it stays apart from null.
      typeof value === 'number' ? String(value) : value,
    );
    figuresKeys.set(step, figures);
  }
  const { trueWindKn, seaHeightM } = handling.limits;
  return `${figures} ${handling.id} ${trueWindKn.noGo} ${seaHeightM.noGo} ${sailStateId} ${steadyingWindRule}`;
}
