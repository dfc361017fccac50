import { MS_PER_H, slotEpochMs } from '../time/index.ts';
import { deckWindUnder } from '../voyage/index.ts';
import { sigmaSeaHeightM, sigmaWindKn, windHeightRatio } from '../weather/index.ts';
import { drySpellRow, highestWaveRows, lightRow, RAIN_MM_PER_H, steadyingRows, steepnessRows } from './limit-values.ts';
import type { LimitRule, LimitValues, WorkedStep } from './limit-rule.ts';

/** Overside, the highest wave expected in an hour stays below this many times the step's no-go height. */
const HIGHEST_WAVE_RATIO = 1.8;

/** Every limit that binds a step, in the order of LIMIT_IDS. A limit the step does not have gives no rule. */
export function limitRules(worked: WorkedStep): LimitRule[] {
  return [
    ...deckRules(worked),
    ...seaRules(worked),
    ...handlingRules(worked),
    ...skyRules(worked),
    ...rainRules(worked),
    ...temperatureRules(worked),
    ...steadyingRules(worked),
  ];
}

type RuleFigures = Omit<LimitRule, 'values' | 'isShared' | 'valueAt'>;

/** A rule on values that differ between scenarios. */
function byScenario(worked: WorkedStep, values: LimitValues, figures: RuleFigures): LimitRule {
  const { pointCount } = worked.conditions.weather;
  return {
    ...figures,
    values,
    isShared: false,
    valueAt: (w, i) => values[w * pointCount + i] ?? Number.NaN,
  };
}

/** A rule on one row for all scenarios, without a forecast error of its own. */
function shared(values: LimitValues, figures: Pick<RuleFigures, 'id' | 'unit' | 'noGo' | 'sense'>): LimitRule {
  const valueAt = (_: number, i: number): number => values[i] ?? Number.NaN;
  return { ...figures, tightens: false, essential: false, sdAt: null, values, isShared: true, valueAt };
}

function leadH(worked: WorkedStep, i: number): number {
  return (slotEpochMs(worked.conditions.course.grid, i) - worked.baseEpochMs) / MS_PER_H;
}

function deckRules(worked: WorkedStep): LimitRule[] {
  const { deckWindKn, deckGustNoGoKn } = worked.step.limits;
  if (deckWindKn === null && deckGustNoGoKn === null) return [];
  const deck = deckWindUnder(worked.conditions, worked.handling, worked.sailStateId);
  const toDeck = windHeightRatio({ heightM: worked.conditions.deckHeightM });
  const sdAt = (_: number, i: number): number => sigmaWindKn(leadH(worked, i)) * toDeck;
  const atMost = { sense: 'at-most', unit: 'kn', tightens: true, essential: true, sdAt } as const;
  return [
    ...(deckWindKn === null
      ? []
      : [byScenario(worked, deck.meanKn, { ...atMost, id: 'deck-wind', noGo: deckWindKn.noGo })]),
    ...(deckGustNoGoKn === null
      ? []
      : [byScenario(worked, deck.gustKn, { ...atMost, id: 'deck-gust', noGo: deckGustNoGoKn })]),
  ];
}

function seaRules(worked: WorkedStep): LimitRule[] {
  const { seaHeightM, steepnessNoGoRatio } = worked.step.limits;
  const { weather } = worked.conditions;
  const atMost = { sense: 'at-most', tightens: true, essential: false, sdAt: null } as const;
  const rules: LimitRule[] = [];
  if (seaHeightM !== null) {
    const figures = { ...atMost, id: 'sea-height', unit: 'm', noGo: seaHeightM.noGo, sdAt: seaSd(worked) } as const;
    rules.push(byScenario(worked, weather.seaHeightM, figures));
  }
  if (seaHeightM !== null && worked.step.place === 'overside') {
    const figures = { ...atMost, id: 'highest-wave', unit: 'm', noGo: HIGHEST_WAVE_RATIO * seaHeightM.noGo } as const;
    rules.push(byScenario(worked, highestWaveRows(weather), figures));
  }
  if (steepnessNoGoRatio !== null) {
    const figures = { ...atMost, id: 'steepness', unit: 'ratio', noGo: steepnessNoGoRatio } as const;
    rules.push(byScenario(worked, steepnessRows(weather), figures));
  }
  return rules;
}

function seaSd(worked: WorkedStep): (value: number, i: number) => number {
  return (seaHeightM, i) => sigmaSeaHeightM({ seaHeightM, leadH: leadH(worked, i) });
}

function handlingRules(worked: WorkedStep): LimitRule[] {
  const { weather } = worked.conditions;
  const { trueWindKn, seaHeightM } = worked.handling.limits;
  const atMost = { sense: 'at-most', tightens: true } as const;
  return [
    byScenario(worked, weather.windKn, {
      ...atMost,
      id: 'handling-wind',
      unit: 'kn',
      noGo: trueWindKn.noGo,
      essential: true,
      sdAt: (_, i) => sigmaWindKn(leadH(worked, i)),
    }),
    byScenario(worked, weather.seaHeightM, {
      ...atMost,
      id: 'handling-sea',
      unit: 'm',
      noGo: seaHeightM.noGo,
      essential: false,
      sdAt: seaSd(worked),
    }),
  ];
}

function skyRules(worked: WorkedStep): LimitRule[] {
  const { limits } = worked.step;
  const { light, weather } = worked.conditions;
  const rules: LimitRule[] = [];
  if (limits.daylight === 'required') {
    // Civil twilight is light enough to finish work by: horizon and hands are seen.
    rules.push(shared(lightRow(light), { id: 'daylight', unit: 'light', noGo: 1, sense: 'at-most' }));
  }
  if (limits.visibilityLeastNm !== null) {
    const figures = { id: 'visibility', unit: 'nm', noGo: limits.visibilityLeastNm, sense: 'at-least' } as const;
    rules.push(shared(weather.visibilityNm, figures));
  }
  return rules;
}

function rainRules(worked: WorkedStep): LimitRule[] {
  const { rain, dryBeforeH } = worked.step.limits;
  const { weather, course } = worked.conditions;
  const atMost = { unit: 'mm/h', noGo: RAIN_MM_PER_H, sense: 'at-most' } as const;
  const rules: LimitRule[] = [];
  if (rain === 'none') rules.push(shared(weather.rainMmPerH, { ...atMost, id: 'rain' }));
  if (dryBeforeH !== null) {
    const beforeSlots = Math.ceil((dryBeforeH * 60) / course.grid.slotMin - 1e-6);
    rules.push(shared(drySpellRow(weather.rainMmPerH, beforeSlots), { ...atMost, id: 'dry-spell' }));
  }
  return rules;
}

function temperatureRules(worked: WorkedStep): LimitRule[] {
  const { airLeastC, seaWaterLeastC } = worked.step.limits;
  const { weather } = worked.conditions;
  const atLeast = { unit: '°C', sense: 'at-least' } as const;
  return [
    ...(airLeastC === null ? [] : [shared(weather.airC, { ...atLeast, id: 'air-temperature', noGo: airLeastC })]),
    ...(seaWaterLeastC === null
      ? []
      : [shared(weather.seaWaterC, { ...atLeast, id: 'sea-temperature', noGo: seaWaterLeastC })]),
  ];
}

/** Light air over an old swell is a no-go aloft and overside; on deck it slows the work (see work-factors). */
function steadyingRules(worked: WorkedStep): LimitRule[] {
  const isExposed = worked.step.place === 'aloft' || worked.step.place === 'overside';
  if (!worked.steadyingWindRule || !isExposed) return [];
  const figures = { id: 'steadying-wind', unit: 'yes/no', noGo: 0, sense: 'at-most' } as const;
  const asTheyAre = { tightens: false, essential: false, sdAt: null } as const;
  return [byScenario(worked, steadyingRows(worked.conditions.weather), { ...figures, ...asTheyAre })];
}
