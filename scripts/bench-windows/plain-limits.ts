import type { Handling } from '../../lib/boat/index.ts';
import type { Step } from '../../lib/jobs/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { deckWindUnder } from '../../lib/voyage/index.ts';
import { highestExpectedWaveM, steepnessRatio } from '../../lib/weather/index.ts';
import type { LimitId, TableSettings } from '../../lib/windows/index.ts';

/** A scenario and slot in which a step is worked under a handling. */
export interface PlainPlace {
  readonly conditions: Conditions;
  readonly handling: Handling;
  readonly sailStateId: string;
  readonly w: number;
  readonly i: number;
}

export type PlainVerdict = readonly [limit: LimitId, met: 'held' | 'broken' | 'unknown'];

/** Every limit of a step at one instant in one scenario. */
export function plainVerdicts(
  step: Step,
  place: PlainPlace,
  settings: Pick<TableSettings, 'limitRatio' | 'steadyingWindRule'>,
): PlainVerdict[] {
  return [
    ...windVerdicts(step, place, settings.limitRatio),
    ...seaVerdicts(step, place, settings.limitRatio),
    ...skyVerdicts(step, place),
    ...rainVerdicts(step, place),
    ...(settings.steadyingWindRule ? steadyingVerdicts(step, place) : []),
  ];
}

const atScenario = (values: Float32Array, { conditions, w, i }: PlainPlace): number =>
  values[w * conditions.weather.pointCount + i] ?? Number.NaN;

const atMost = (limit: LimitId, value: number, most: number): PlainVerdict => [
  limit,
  Number.isNaN(value) ? 'unknown' : value > Math.fround(most) ? 'broken' : 'held',
];

const atLeast = (limit: LimitId, value: number, least: number): PlainVerdict => [
  limit,
  Number.isNaN(value) ? 'unknown' : value < Math.fround(least) ? 'broken' : 'held',
];

/** Nobody works in a wind the forecast does not hold. */
const neverUnknown = ([limit, met]: PlainVerdict): PlainVerdict => [limit, met === 'unknown' ? 'broken' : met];

function windVerdicts({ limits }: Step, place: PlainPlace, limitRatio: number): PlainVerdict[] {
  const deck = deckWindUnder(place.conditions, place.handling, place.sailStateId);
  const trueWindKn = atScenario(place.conditions.weather.windKn, place);
  const verdicts = [atMost('handling-wind', trueWindKn, place.handling.limits.trueWindKn.noGo * limitRatio)];
  if (limits.deckWindKn !== null)
    verdicts.push(atMost('deck-wind', atScenario(deck.meanKn, place), limits.deckWindKn.noGo * limitRatio));
  if (limits.deckGustNoGoKn !== null)
    verdicts.push(atMost('deck-gust', atScenario(deck.gustKn, place), limits.deckGustNoGoKn * limitRatio));
  return verdicts.map(neverUnknown);
}

function seaVerdicts(step: Step, place: PlainPlace, limitRatio: number): PlainVerdict[] {
  const { seaHeightM, steepnessNoGoRatio } = step.limits;
  const heightM = atScenario(place.conditions.weather.seaHeightM, place);
  const wavePeriodS = place.conditions.weather.wavePeriodS[place.i] ?? Number.NaN;
  const verdicts = [atMost('handling-sea', heightM, place.handling.limits.seaHeightM.noGo * limitRatio)];
  if (seaHeightM !== null) verdicts.push(atMost('sea-height', heightM, seaHeightM.noGo * limitRatio));
  if (seaHeightM !== null && step.place === 'overside') {
    const countedS = Number.isNaN(wavePeriodS) ? 6 : wavePeriodS;
    const highestM = highestExpectedWaveM({ seaHeightM: heightM, wavePeriodS: countedS, durationMin: 60 });
    verdicts.push(atMost('highest-wave', highestM, 1.8 * seaHeightM.noGo * limitRatio));
  }
  if (steepnessNoGoRatio !== null) {
    const steepness = steepnessRatio({ seaHeightM: heightM, wavePeriodS });
    verdicts.push(atMost('steepness', steepness, steepnessNoGoRatio * limitRatio));
  }
  return verdicts;
}

function skyVerdicts({ limits }: Step, { conditions, i }: PlainPlace): PlainVerdict[] {
  const { weather, light } = conditions;
  const at = (values: Float32Array): number => values[i] ?? Number.NaN;
  return [
    ...(limits.daylight === 'required' ? [atMost('daylight', light[i] ?? 3, 1)] : []),
    ...(limits.visibilityLeastNm === null
      ? []
      : [atLeast('visibility', at(weather.visibilityNm), limits.visibilityLeastNm)]),
    ...(limits.airLeastC === null ? [] : [atLeast('air-temperature', at(weather.airC), limits.airLeastC)]),
    ...(limits.seaWaterLeastC === null
      ? []
      : [atLeast('sea-temperature', at(weather.seaWaterC), limits.seaWaterLeastC)]),
  ];
}

function rainVerdicts({ limits }: Step, { conditions, i }: PlainPlace): PlainVerdict[] {
  const rainAt = (slot: number): number => conditions.weather.rainMmPerH[slot] ?? Number.NaN;
  const verdicts: PlainVerdict[] = limits.rain === 'none' ? [atMost('rain', rainAt(i), 0.1)] : [];
  if (limits.dryBeforeH === null) return verdicts;
  const beforeSlots = Math.ceil((limits.dryBeforeH * 60) / conditions.course.grid.slotMin - 1e-6);
  const hours = Array.from({ length: beforeSlots + 1 }, (_, k) => atMost('dry-spell', rainAt(i - k), 0.1)[1]);
  const met = hours.includes('broken') ? 'broken' : hours.includes('unknown') ? 'unknown' : 'held';
  return [...verdicts, ['dry-spell', met]];
}

function steadyingVerdicts(step: Step, place: PlainPlace): PlainVerdict[] {
  if (step.place !== 'aloft' && step.place !== 'overside') return [];
  const trueWindKn = atScenario(place.conditions.weather.windKn, place);
  const heightM = atScenario(place.conditions.weather.seaHeightM, place);
  if (!(trueWindKn < 5)) return [['steadying-wind', 'held']];
  if (Number.isNaN(heightM)) return [['steadying-wind', 'unknown']];
  return [['steadying-wind', heightM > 0.8 ? 'broken' : 'held']];
}
