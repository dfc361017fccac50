import type { Handling } from '../boat/index.ts';
import type { Step } from '../jobs/index.ts';
import { slotEpochMs, MS_PER_H } from '../time/index.ts';
import type { Conditions } from '../voyage/index.ts';
import { deckWindUnder } from '../voyage/index.ts';
import { windHeightRatio, modalHighestRatio, sigmaSeaHeightM, sigmaWindKn, steepnessRatio } from '../weather/index.ts';

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
] as const;
export type LimitId = (typeof LIMIT_IDS)[number];

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

/** Sea above this with true wind below STEADYING_WIND_KN leaves a boat rolling: common practice, no source. */
const UNSTEADY_SEA_M = 0.8;
const STEADYING_WIND_KN = 5;
/** Rain a surface or a glue does not stand: any that a gauge shows in an hour. */
const RAIN_MM_PER_H = 0.1;
/** Overside, the highest wave expected in an hour stays below this many times the step's no-go height. */
const HIGHEST_WAVE_RATIO = 1.8;
/** Wave period taken for counting waves where the forecast holds none [s]; shorter counts more waves. */
const FALLBACK_PERIOD_S = 6;

/** Every limit that binds a step, in the order of LIMIT_IDS. A limit the step does not have gives no rule. */
export function limitRules(worked: WorkedStep): LimitRule[] {
  return [
    ...deckRules(worked),
    ...seaRules(worked),
    ...handlingRules(worked),
    ...skyAndAirRules(worked),
    ...steadyingRules(worked),
  ];
}

function leadH(worked: WorkedStep, i: number): number {
  return (slotEpochMs(worked.conditions.course.grid, i) - worked.baseEpochMs) / MS_PER_H;
}

function deckRules(worked: WorkedStep): LimitRule[] {
  const { deckWindKn, deckGustNoGoKn } = worked.step.limits;
  if (deckWindKn === null && deckGustNoGoKn === null) return [];
  const deck = deckWindUnder(worked.conditions, worked.handling, worked.sailStateId);
  const { pointCount } = worked.conditions.weather;
  const toDeck = windHeightRatio({ heightM: worked.conditions.deckHeightM });
  const windSd = (_: number, i: number): number => sigmaWindKn(leadH(worked, i)) * toDeck;
  const atMost = { sense: 'at-most', unit: 'kn', tightens: true, essential: true } as const;
  const rules: LimitRule[] = [];
  if (deckWindKn !== null) {
    const valueAt = (w: number, i: number): number => deck.meanKn[w * pointCount + i] ?? Number.NaN;
    rules.push({ ...atMost, id: 'deck-wind', noGo: deckWindKn.noGo, valueAt, sdAt: windSd });
  }
  if (deckGustNoGoKn !== null) {
    const valueAt = (w: number, i: number): number => deck.gustKn[w * pointCount + i] ?? Number.NaN;
    rules.push({ ...atMost, id: 'deck-gust', noGo: deckGustNoGoKn, valueAt, sdAt: windSd });
  }
  return rules;
}

function seaRules(worked: WorkedStep): LimitRule[] {
  const { seaHeightM, steepnessNoGoRatio } = worked.step.limits;
  const { weather } = worked.conditions;
  const seaAt = (w: number, i: number): number => weather.seaHeightM[w * weather.pointCount + i] ?? Number.NaN;
  const periodAt = (i: number): number => weather.wavePeriodS[i] ?? Number.NaN;
  const rules: LimitRule[] = [];
  const atMost = { sense: 'at-most', tightens: true, essential: false } as const;
  if (seaHeightM !== null) {
    rules.push({ ...atMost, id: 'sea-height', unit: 'm', noGo: seaHeightM.noGo, valueAt: seaAt, sdAt: seaSd(worked) });
  }
  if (seaHeightM !== null && worked.step.place === 'overside') {
    const highestAt = (w: number, i: number): number => seaAt(w, i) * highestInAnHour(periodAt(i));
    const noGo = HIGHEST_WAVE_RATIO * seaHeightM.noGo;
    rules.push({ ...atMost, id: 'highest-wave', unit: 'm', noGo, valueAt: highestAt, sdAt: null });
  }
  if (steepnessNoGoRatio !== null) {
    const valueAt = (w: number, i: number): number =>
      steepnessRatio({ seaHeightM: seaAt(w, i), wavePeriodS: periodAt(i) });
    rules.push({ ...atMost, id: 'steepness', unit: 'ratio', noGo: steepnessNoGoRatio, valueAt, sdAt: null });
  }
  return rules;
}

function highestInAnHour(periodS: number): number {
  return modalHighestRatio(3600 / (Number.isNaN(periodS) ? FALLBACK_PERIOD_S : periodS));
}

function seaSd(worked: WorkedStep): (value: number, i: number) => number {
  return (seaHeightM, i) => sigmaSeaHeightM({ seaHeightM, leadH: leadH(worked, i) });
}

function handlingRules(worked: WorkedStep): LimitRule[] {
  const { weather } = worked.conditions;
  const { trueWindKn, seaHeightM } = worked.handling.limits;
  return [
    {
      id: 'handling-wind',
      unit: 'kn',
      noGo: trueWindKn.noGo,
      sense: 'at-most',
      tightens: true,
      essential: true,
      valueAt: (w, i) => weather.windKn[w * weather.pointCount + i] ?? Number.NaN,
      sdAt: (_, i) => sigmaWindKn(leadH(worked, i)),
    },
    {
      id: 'handling-sea',
      unit: 'm',
      noGo: seaHeightM.noGo,
      sense: 'at-most',
      tightens: true,
      essential: false,
      valueAt: (w, i) => weather.seaHeightM[w * weather.pointCount + i] ?? Number.NaN,
      sdAt: seaSd(worked),
    },
  ];
}

function skyAndAirRules(worked: WorkedStep): LimitRule[] {
  const { limits } = worked.step;
  const { light, weather } = worked.conditions;
  const fixed = { tightens: false, essential: false, sdAt: null } as const;
  const rules: LimitRule[] = [];
  if (limits.daylight === 'required') {
    // Civil twilight is light enough to finish work by: horizon and hands are seen.
    rules.push({
      ...fixed,
      id: 'daylight',
      unit: 'light',
      noGo: 1,
      sense: 'at-most',
      valueAt: (_, i) => light[i] ?? 3,
    });
  }
  if (limits.rain === 'none') {
    const valueAt = (_: number, i: number): number => weather.rainMmPerH[i] ?? Number.NaN;
    rules.push({ ...fixed, id: 'rain', unit: 'mm/h', noGo: RAIN_MM_PER_H, sense: 'at-most', valueAt });
  }
  if (limits.airLeastC !== null) {
    const valueAt = (_: number, i: number): number => weather.airC[i] ?? Number.NaN;
    rules.push({ ...fixed, id: 'air-temperature', unit: '°C', noGo: limits.airLeastC, sense: 'at-least', valueAt });
  }
  if (limits.seaWaterLeastC !== null) {
    const valueAt = (_: number, i: number): number => weather.seaWaterC[i] ?? Number.NaN;
    rules.push({
      ...fixed,
      id: 'sea-temperature',
      unit: '°C',
      noGo: limits.seaWaterLeastC,
      sense: 'at-least',
      valueAt,
    });
  }
  return rules;
}

/** Light air over an old swell is a no-go aloft and overside; on deck it slows the work (see work-factors). */
function steadyingRules(worked: WorkedStep): LimitRule[] {
  const exposed = worked.step.place === 'aloft' || worked.step.place === 'overside';
  if (!worked.steadyingWindRule || !exposed) return [];
  const { weather } = worked.conditions;
  const valueAt = (w: number, i: number): number => {
    const k = w * weather.pointCount + i;
    const seaHeightM = weather.seaHeightM[k] ?? Number.NaN;
    const windKn = weather.windKn[k] ?? Number.NaN;
    if (Number.isNaN(seaHeightM)) return windKn < STEADYING_WIND_KN ? Number.NaN : 0;
    return isUnsteady({ windKn, seaHeightM }) ? 1 : 0;
  };
  return [
    {
      id: 'steadying-wind',
      unit: 'yes/no',
      noGo: 0,
      sense: 'at-most',
      tightens: false,
      essential: false,
      valueAt,
      sdAt: null,
    },
  ];
}

/** True wind below 5 kn with a sea above 0.8 m: nothing steadies the boat. */
export function isUnsteady(at: { windKn: number; seaHeightM: number }): boolean {
  return at.windKn < STEADYING_WIND_KN && at.seaHeightM > UNSTEADY_SEA_M;
}
