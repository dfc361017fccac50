import { MS_PER_H } from '../time/index.ts';
import { drawErrors, type ErrorDraws, type ErrorSizes, residualErrors, singleForecastErrors } from './error-draws.ts';
import type { Forecast } from './forecast.ts';
import type { Series } from './frame.ts';
import { CONTROL_ID } from './match-field.ts';
import { inflateFromMean, meanSeries } from './mean-series.ts';
import { quantityOf, type QuantityId } from './quantity.ts';

/** Scenario weights are integers that sum to this. */
export const WEIGHT_SUM = 1_000_000;
const PLANNING_SCENARIO_COUNT = 64;
const REPORTING_SCENARIO_COUNT = 1024;

export interface ScenarioSetOptions {
  readonly errorModel: 'default' | 'none';
  /** Plans are chosen on `planning` and their probabilities told on `reporting`: different draws. */
  readonly purpose: 'planning' | 'reporting';
  readonly seed: number;
  /** Distance of ensemble members from their mean is multiplied by this (default error model only). */
  readonly spreadInflationRatio: number;
  /** Gust over mean where the forecast has no gust. */
  readonly gustRatio: number;
  /** Number of scenarios; default by purpose, in an ensemble for planning one per member. */
  readonly drawCount?: number;
}

/** What one scenario is made of. A gust of null is estimated from the mean. */
export interface ScenarioSource {
  readonly memberId: string;
  readonly wind: Series | null;
  readonly gust: Series | null;
  readonly seaHeight: Series | null;
  readonly pressure: Series | null;
}

/** Weighted possible weathers; everything downstream reads only these. */
export interface ScenarioSet {
  readonly forecast: Forecast;
  readonly scenarioCount: number;
  /** Sum 1 000 000. */
  readonly weights: Int32Array;
  /** Source of every scenario; several may share one. */
  readonly sources: readonly ScenarioSource[];
  /** Null: the forecast is taken at its word. */
  readonly errors: { readonly draws: ErrorDraws; readonly sizes: ErrorSizes } | null;
  /** Shift of each scenario [h] seen by the boat, positive later; replaces the timing draw. Null: nothing seen. */
  readonly seenShiftH: Float64Array | null;
  /** When it was last seen: what the timing error grows by after it is drawn again. Null: the shift holds for good. */
  readonly seenAtEpochMs: number | null;
  /** Shift of the reference run and of what all scenarios share [h], positive later; 0: nothing seen. */
  readonly referenceShiftH: number;
  readonly gustRatio: number;
  readonly kind: 'single' | 'ensemble';
  /** Quantities taken from the control because members do not hold them. */
  readonly borrowed: readonly QuantityId[];
  /** Whether gusts are estimated from the mean because no file holds any. */
  readonly gustIsEstimated: boolean;
  readonly notes: readonly string[];
}

/**
 * Turns a forecast into weighted scenarios.
 *
 * Two or more perturbed members make an ensemble, in which the control run does not count; otherwise the forecast is
 * single. With `errorModel` `none` both are taken at their word. Same options, same scenarios, in any order of use.
 */
export function buildScenarioSet(forecast: Forecast, options: ScenarioSetOptions): ScenarioSet {
  const kind = forecast.memberIds.length >= 2 ? 'ensemble' : 'single';
  const memberIds = kind === 'ensemble' ? forecast.memberIds : [singleId(forecast)];
  const scenarioCount = countScenarios(kind, memberIds.length, options);
  const members = memberSources(forecast, memberIds, kind === 'ensemble' ? options : null);
  const sources = Array.from({ length: scenarioCount }, (_, w) => sourceAt(members, w));
  const gustIsEstimated = !forecast.held.includes('gust');
  const borrowed = kind === 'ensemble' ? borrowedQuantities(forecast, memberIds) : [];
  return {
    forecast,
    scenarioCount,
    weights: equalMemberWeights(scenarioCount, members.length),
    sources,
    errors: options.errorModel === 'none' ? null : errorsOf(forecast, { kind, scenarioCount, options }),
    seenShiftH: null,
    seenAtEpochMs: null,
    referenceShiftH: 0,
    gustRatio: options.gustRatio,
    kind,
    borrowed,
    gustIsEstimated,
    notes: setNotes({ forecast, kind, scenarioCount, options, borrowed, gustIsEstimated }),
  };
}

function sourceAt(members: readonly ScenarioSource[], w: number): ScenarioSource {
  const source = members[w % members.length];
  if (source === undefined) throw new Error('a scenario set needs a member');
  return source;
}

const singleId = (forecast: Forecast): string =>
  forecast.hasControl ? CONTROL_ID : (forecast.memberIds[0] ?? CONTROL_ID);

function countScenarios(kind: ScenarioSet['kind'], memberCount: number, options: ScenarioSetOptions): number {
  if (options.errorModel === 'none') return memberCount;
  if (options.drawCount !== undefined) return Math.max(1, Math.trunc(options.drawCount));
  if (options.purpose === 'reporting') return REPORTING_SCENARIO_COUNT;
  return kind === 'ensemble' ? memberCount : PLANNING_SCENARIO_COUNT;
}

/** A member's own series, else the control's. */
function seriesOf(forecast: Forecast, quantity: QuantityId, memberId: string): Series | null {
  const members = forecast.series.get(quantity);
  return members?.get(memberId) ?? members?.get(CONTROL_ID) ?? null;
}

function memberSources(
  forecast: Forecast,
  memberIds: readonly string[],
  inflated: ScenarioSetOptions | null,
): readonly ScenarioSource[] {
  const inflationRatio = inflated === null || inflated.errorModel === 'none' ? 1 : inflated.spreadInflationRatio;
  const seriesByMember = (quantity: QuantityId, leastN: number): (Series | null)[] => {
    const own = memberIds.map((memberId) => seriesOf(forecast, quantity, memberId));
    const mean = inflationRatio === 1 ? null : meanSeries(own.filter((series) => series !== null));
    return mean === null
      ? own
      : own.map((series) => series && inflateFromMean(series, mean, { inflationRatio, leastN }));
  };
  const [wind, gust, sea] = [
    seriesByMember('wind', -Infinity),
    seriesByMember('gust', 0),
    seriesByMember('seaHeight', 0),
  ];
  return memberIds.map((memberId, i) => ({
    memberId,
    wind: wind[i] ?? null,
    gust: gust[i] ?? null,
    seaHeight: sea[i] ?? null,
    pressure: seriesOf(forecast, 'pressure', memberId),
  }));
}

/** Every member weighs the same, however many of its draws there are; the sum is exact. */
function equalMemberWeights(scenarioCount: number, memberCount: number): Int32Array {
  const usedCount = Math.min(scenarioCount, memberCount);
  const weights = new Int32Array(scenarioCount);
  for (const [member, memberWeight] of evenParts(WEIGHT_SUM, usedCount).entries()) {
    const drawCount = Math.ceil((scenarioCount - member) / memberCount);
    for (const [k, weight] of evenParts(memberWeight, drawCount).entries()) weights[member + k * memberCount] = weight;
  }
  return weights;
}

/** A whole in integer parts that differ by 1 at most. */
const evenParts = (wholeWeight: number, partCount: number): number[] =>
  Array.from(
    { length: partCount },
    (_, k) => Math.floor((wholeWeight * (k + 1)) / partCount) - Math.floor((wholeWeight * k) / partCount),
  );

function errorsOf(
  forecast: Forecast,
  of: { kind: ScenarioSet['kind']; scenarioCount: number; options: ScenarioSetOptions },
): ScenarioSet['errors'] {
  const { seed, purpose } = of.options;
  const mostLeadH = (forecast.endEpochMs - forecast.baseEpochMs) / MS_PER_H;
  const draws = drawErrors({ seed, purpose, scenarioCount: of.scenarioCount, mostLeadH });
  return { draws, sizes: of.kind === 'ensemble' ? residualErrors : singleForecastErrors };
}

const borrowedQuantities = (forecast: Forecast, memberIds: readonly string[]): QuantityId[] =>
  (['gust', 'seaHeight'] as const).filter((quantity) => {
    const members = forecast.series.get(quantity);
    return members?.has(CONTROL_ID) === true && memberIds.some((id) => !members.has(id));
  });

function setNotes(of: {
  forecast: Forecast;
  kind: ScenarioSet['kind'];
  scenarioCount: number;
  options: ScenarioSetOptions;
  borrowed: readonly QuantityId[];
  gustIsEstimated: boolean;
}): string[] {
  const { forecast, kind, scenarioCount, options } = of;
  const members = forecast.memberIds.length;
  const what =
    options.errorModel === 'none'
      ? kind === 'single'
        ? 'One forecast, taken at its word: probabilities are 0 or 1.'
        : `${members} members as they are${forecast.hasControl ? '; the control run is not counted' : ''}.`
      : kind === 'single'
        ? `One forecast, drawn ${scenarioCount} times with the default error for its lead.`
        : `${members} members, drawn ${scenarioCount} times with the residual error of level, timing and direction` +
          `${forecast.hasControl ? '; the control run is not counted' : ''}.`;
  return [
    what,
    ...of.borrowed.map(
      (id) => `${quantityOf(id).name}: borrowed from the control run, because members do not hold it.`,
    ),
    ...(of.gustIsEstimated
      ? [`gust: estimated as the larger of ${options.gustRatio} × mean and mean + 3 kn, because no file holds it.`]
      : []),
  ];
}
