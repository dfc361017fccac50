import type { Step } from '../jobs/index.ts';
import { gateFor, strictestGate } from '../person/index.ts';
import type { Result } from '../result/index.ts';
import { ok } from '../result/index.ts';
import { MS_PER_H, slotEpochMs } from '../time/index.ts';
import type { Light } from '../voyage/index.ts';
import { deckWindUnder, LIGHTS } from '../voyage/index.ts';
import { blockMargins, LIMIT_IDS, type LimitMargin, scenarioQuantiles, totalWeight } from '../windows/index.ts';
import type { AskedBlock, AskedWork } from './asked-work.ts';
import { askedWork } from './asked-work.ts';
import { hourValues, type HourValues, type MoonSeen } from './hour-values.ts';
import type { LimitLevels, PictureLimits, Spread, WideSpread } from './plan-picture.ts';
import type { Preparation } from './prepare.ts';
import { tableSettings } from './prepare.ts';

/**
 * The hours of one block of a job under one handling, boat on the nominal track: what its windows are made of.
 *
 * Arrays stand on `slotEpochMs`, from the first slot of the plan on. NaN: the forecast does not hold the value there.
 */
export interface WindowsPicture {
  readonly asked: AskedBlock;
  /** What is set while it is worked. */
  readonly sailStateId: string;
  readonly slotEpochMs: Float64Array;
  readonly light: readonly Light[];
  readonly moon: readonly MoonSeen[];
  readonly hours: HourValues;
  readonly deckWindKn: WideSpread;
  readonly deckGustKn: Spread;
  readonly seaHeightM: Spread;
  readonly rainMmPerH: Float32Array;
  readonly airC: Float32Array;
  /** null: these forecasts are not asked for it. */
  readonly visibilityNm: Float32Array | null;
  /** The strictest of the block's steps. */
  readonly limits: BlockLimits;
  /** The alertness line that gates the block; null: none. */
  readonly leastAlertnessPoints: number | null;
  /** Share of scenario weight in which a start in this slot holds; NaN: no start there. */
  readonly startProbability: Float32Array;
  readonly wantedProbability: number;
  /** One for each full hour at which the work can begin, in order of time. */
  readonly hourStarts: readonly HourStart[];
  /** The earliest of the starts that hold in most scenarios, at any slot; null: the work can begin nowhere. */
  readonly surestStart: HourStart | null;
}

/** A start, and what is tightest over its reference period, in the median scenario. */
export interface HourStart {
  readonly atEpochMs: number;
  /** Share of scenario weight in which it holds. */
  readonly probability: number;
  /** null: no limit is known there. */
  readonly binding: LimitMargin | null;
  /** Ids of limits the forecast says nothing about. */
  readonly unknownLimits: readonly string[];
}

export interface BlockLimits extends PictureLimits {
  /** Of the handling, at 10 m. */
  readonly trueWindNoGoKn: number;
  readonly handlingSeaNoGoM: number;
  readonly daylight: 'required' | 'preferred' | 'not-needed';
  readonly visibilityLeastNm: number | null;
  readonly seaWaterLeastC: number | null;
  readonly steepnessNoGoRatio: number | null;
  /** Hours without rain before the work; null: not asked for. */
  readonly dryBeforeH: number | null;
}

/** Draws the hours of a block under a handling, or says what does not exist. Problems: see {@link askedWork}. */
export function windowsPicture(preparation: Preparation, asked: AskedBlock): Result<WindowsPicture> {
  const found = askedWork(preparation, asked);
  if (!found.ok) return found;
  const { work } = found.value;
  const { fromSlot, passage } = preparation;
  const conditions = preparation.lag.conditionsAt(0);
  const deck = deckWindUnder(conditions, work.handling, work.sailStateId);
  const { weather } = conditions;
  const quantile = (values: Float32Array, quantileProbability: number): Float32Array =>
    scenarioQuantiles(values, weather, quantileProbability).slice(fromSlot);
  const spread = (values: Float32Array): Spread => ({
    p10: quantile(values, 0.1),
    p50: quantile(values, 0.5),
    p90: quantile(values, 0.9),
  });
  const hours = hourValues(conditions, fromSlot);
  const gates = work.block.steps.map((step) => gateFor(step, passage.watchkeeper.gates));
  return ok({
    asked,
    sailStateId: work.sailStateId,
    slotEpochMs: Float64Array.from(hours.moon, (_, i) => slotEpochMs(conditions.course.grid, fromSlot + i)),
    light: Array.from(conditions.light.subarray(fromSlot), (index) => LIGHTS[index] ?? 'night'),
    moon: hours.moon,
    hours,
    deckWindKn: { ...spread(deck.meanKn), p25: quantile(deck.meanKn, 0.25), p75: quantile(deck.meanKn, 0.75) },
    deckGustKn: spread(deck.gustKn),
    seaHeightM: spread(weather.seaHeightM),
    rainMmPerH: weather.rainMmPerH.slice(fromSlot),
    airC: weather.airC.slice(fromSlot),
    visibilityNm: visibilityOf(weather)?.slice(fromSlot) ?? null,
    limits: blockLimits(found.value),
    leastAlertnessPoints: strictestGate(gates).leastAlertnessPoints,
    startProbability: startProbabilities(preparation, found.value),
    wantedProbability: passage.settings.wantedProbability,
    ...judgedStarts(preparation, found.value),
  });
}

/** As `lookAtStart` judges each of these starts. */
function judgedStarts(
  { grid, fromSlot, passage, weather, lag }: Preparation,
  { table, work }: AskedWork,
): Pick<WindowsPicture, 'hourStarts' | 'surestStart'> {
  const whole = table.whole();
  const all = totalWeight(weather.weights);
  const weightAt = (i: number): number => whole.weight[i] ?? 0;
  const search = { conditions: lag.conditionsAt(0), settings: tableSettings(passage, weather, 1) };
  const judged = (i: number): HourStart => ({
    atEpochMs: slotEpochMs(grid, i),
    probability: weightAt(i) / all,
    binding: blockMargins(work, search, whole.spans[i] ?? [])[0] ?? null,
    unknownLimits: unknownLimitsOf(whole.unknownBits[i] ?? 0),
  });
  const slots = [...whole.referenceSlots.keys()].filter((i) => i >= fromSlot && (whole.referenceSlots[i] ?? 0) > 0);
  const most = Math.max(...slots.map(weightAt));
  const surest = slots.find((i) => weightAt(i) === most);
  return {
    hourStarts: slots.filter((i) => slotEpochMs(grid, i) % MS_PER_H === 0).map(judged),
    surestStart: surest === undefined ? null : judged(surest),
  };
}

const unknownLimitsOf = (bits: number): string[] => LIMIT_IDS.filter((_, bit) => ((bits >>> bit) & 1) === 1);

function startProbabilities(preparation: Preparation, { table }: AskedWork): Float32Array {
  const { weight, referenceSlots } = table.whole();
  const all = totalWeight(preparation.weather.weights);
  return Float32Array.from(weight, (held, i) => ((referenceSlots[i] ?? 0) > 0 ? held / all : Number.NaN)).slice(
    preparation.fromSlot,
  );
}

const visibilityOf = (weather: object & { readonly visibilityNm?: Float32Array }): Float32Array | undefined =>
  weather.visibilityNm;

function blockLimits({ block, work }: AskedWork): BlockLimits {
  const limits = block.steps.map((step) => step.limits);
  return {
    deckWindKn: strictestLevels(limits.map((limit) => limit.deckWindKn)),
    deckGustNoGoKn: extreme(
      Math.min,
      limits.map((limit) => limit.deckGustNoGoKn),
    ),
    seaHeightM: strictestLevels(limits.map((limit) => limit.seaHeightM)),
    rain: limits.some((limit) => limit.rain === 'none') ? 'none' : 'any',
    airLeastC: extreme(
      Math.max,
      limits.map((limit) => limit.airLeastC),
    ),
    visibilityLeastNm: extreme(Math.max, limits.map(leastVisibility)),
    seaWaterLeastC: extreme(
      Math.max,
      limits.map((limit) => limit.seaWaterLeastC),
    ),
    steepnessNoGoRatio: extreme(
      Math.min,
      limits.map((limit) => limit.steepnessNoGoRatio),
    ),
    dryBeforeH: extreme(
      Math.max,
      limits.map((limit) => limit.dryBeforeH),
    ),
    daylight: strictestLight(block.steps),
    trueWindNoGoKn: work.handling.limits.trueWindKn.noGo,
    handlingSeaNoGoM: work.handling.limits.seaHeightM.noGo,
  };
}

const leastVisibility = (limits: object & { readonly visibilityLeastNm?: number | null }): number | null =>
  limits.visibilityLeastNm ?? null;

function extreme(of: (...values: number[]) => number, values: readonly (number | null)[]): number | null {
  const known = values.filter((value) => value !== null);
  return known.length === 0 ? null : of(...known);
}

/** The levels with the lowest no-go. */
const strictestLevels = (levels: readonly (LimitLevels | null)[]): LimitLevels | null =>
  levels.filter((level) => level !== null).toSorted((a, b) => a.noGo - b.noGo)[0] ?? null;

function strictestLight(steps: readonly Step[]): BlockLimits['daylight'] {
  const asked = new Set(steps.map((step) => step.limits.daylight));
  if (asked.has('required')) return 'required';
  return asked.has('preferred') ? 'preferred' : 'not-needed';
}
