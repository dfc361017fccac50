/** Start slots judged the slow and plain way: every start, scenario, step, limit and instant by itself. */
import type { Step } from '../../lib/jobs/index.ts';
import {
  coldFactorRatio,
  heatFactorRatio,
  lookoutFactorRatio,
  lookoutInterval,
  wbgtEstimateC,
  wetBulbC,
  windChillC,
} from '../../lib/person/index.ts';
import type { Conditions } from '../../lib/voyage/index.ts';
import { deckWindUnder } from '../../lib/voyage/index.ts';
import type { BlockWork, SlotSpan, TableSettings } from '../../lib/windows/index.ts';
import { quantileAt } from '../../lib/windows/index.ts';
import type { PlainPlace } from './plain-limits.ts';
import { plainVerdicts } from './plain-limits.ts';
import { plainPaceRatio } from './plain-pace.ts';

/** What a plain look at one start finds. */
export interface PlainStart {
  readonly plannedMin: number;
  readonly referenceSlots: number;
  readonly spans: readonly SlotSpan[];
  /** Scenarios in which every known limit holds and the work does not outrun the period. */
  readonly scenarios: readonly number[];
  /** Limits unknown somewhere in the period. */
  readonly unknownLimits: readonly string[];
}

/** Most that all time factors together may slow the work. */
const MOST_SLOWED_RATIO = 3;
/** Minutes are compared with this tolerance. */
const NEGLIGIBLE_MIN = 1e-6;

/** One entry for each slot; null: refused. */
export function plainTable(
  work: BlockWork,
  conditions: Conditions,
  settings: TableSettings,
): readonly (PlainStart | null)[] {
  const asked = { work, conditions, settings };
  return Array.from({ length: conditions.weather.pointCount }, (_, i) => plainStart(asked, i));
}

interface Asked {
  readonly work: BlockWork;
  readonly conditions: Conditions;
  readonly settings: TableSettings;
}

function plainStart(asked: Asked, i: number): PlainStart | null {
  const { work, conditions, settings } = asked;
  const { slotMin, slotCount } = conditions.course.grid;
  const { session } = work.block;
  const ratio = slowedRatio(asked, i, null);
  if (Number.isNaN(ratio) || ratio > MOST_SLOWED_RATIO) return null;
  const plannedMin = work.resumeMin + work.workMin * ratio;
  const coreReserveMin = Math.max(settings.contingencyShare * plannedMin, settings.contingencyLeastMin);
  const reserveMin = session === null ? coreReserveMin : session.makeSafeMin;
  const referenceSlots = Math.ceil((plannedMin + reserveMin) / slotMin - NEGLIGIBLE_MIN);
  if (i + referenceSlots > slotCount - 1) return null;
  const spans = spansFrom(asked, reserveMin, i);
  const allowedMin = (plannedMin + reserveMin) * (session === null ? 1 : 1 + settings.contingencyShare);
  const scenarios: number[] = [];
  const unknownLimits = new Set<string>();
  for (let w = 0; w < conditions.weather.scenarioCount; w++) {
    const verdicts = verdictsOver(asked, spans, w);
    for (const [limit, met] of verdicts) if (met === 'unknown') unknownLimits.add(limit);
    const ownMin = work.resumeMin + work.workMin * slowedRatio(asked, i, w);
    if (ownMin <= allowedMin + NEGLIGIBLE_MIN && !verdicts.some(([, met]) => met === 'broken')) scenarios.push(w);
  }
  return { plannedMin, referenceSlots, spans, scenarios, unknownLimits: [...unknownLimits] };
}

function verdictsOver({ work, conditions, settings }: Asked, spans: readonly SlotSpan[], w: number) {
  return work.block.steps.flatMap((step, k) => {
    const { fromSlot = 0, toSlot = -1 } = spans[k] ?? {};
    return Array.from({ length: toSlot - fromSlot + 1 }, (_, n) => {
      const place: PlainPlace = {
        conditions,
        handling: work.handling,
        sailStateId: work.sailStateId,
        w,
        i: fromSlot + n,
      };
      return plainVerdicts(step, place, settings);
    }).flat();
  });
}

function sharesOf(steps: readonly Step[]): number[] {
  const means = steps.map(({ work }) => (work.leastMin + 4 * work.likelyMin + work.mostMin) / 6);
  const sum = means.reduce((total, mean) => total + mean, 0);
  return means.map((mean) => mean / sum);
}

/** How much slower than its library time the block is in a scenario, or in the median of all. */
function slowedRatio(asked: Asked, i: number, w: number | null): number {
  const { steps } = asked.work.block;
  return sharesOf(steps).reduce((total, share, k) => {
    const step = steps[k];
    return step === undefined ? total : total + share * stepPace(asked, step, { i, w }) * otherRatio(asked, step, i);
  }, 0);
}

function stepPace({ work, conditions, settings }: Asked, step: Step, at: { i: number; w: number | null }): number {
  const { weather } = conditions;
  const deck = deckWindUnder(conditions, work.handling, work.sailStateId).meanKn;
  const valueOf = (values: Float32Array): number =>
    at.w === null
      ? Math.fround(quantileAt(values, weather, { i: at.i, quantileProbability: 0.5 }))
      : (values[at.w * weather.pointCount + at.i] ?? Number.NaN);
  return plainPaceRatio(
    step,
    { deckWindKn: valueOf(deck), seaHeightM: valueOf(weather.seaHeightM), trueWindKn: valueOf(weather.windKn) },
    settings.steadyingWindRule,
  );
}

function otherRatio({ work, conditions, settings }: Asked, step: Step, i: number): number {
  const { weather, light } = conditions;
  const airC = weather.airC[i] ?? Number.NaN;
  const isDark = (light[i] ?? 0) > 1;
  return (
    (isDark ? step.darkFactorRatio : 1) *
    handsRatio({ work, conditions, settings }, step, i) *
    heatRatio({ step, airC, isDark, humidityRatio: weather.humidityRatio[i] ?? Number.NaN }, settings) *
    lookRatio(conditions, step, { i, isDark, settings }) *
    work.tiredRatio *
    settings.ownPaceRatioOf(work.block.jobId, step.id)
  );
}

/** NaN: too cold for fine work. */
function handsRatio({ work, conditions, settings }: Asked, step: Step, i: number): number {
  const { weather } = conditions;
  const medianKn = (values: Float32Array): number =>
    Math.fround(quantileAt(values, weather, { i, quantileProbability: 0.5 }));
  const deckWindKn = medianKn(deckWindUnder(conditions, work.handling, work.sailStateId).meanKn);
  const airC = weather.airC[i] ?? Number.NaN;
  if (step.place === 'below' || Number.isNaN(airC) || Number.isNaN(deckWindKn)) return plainGlovesRatio(step, settings);
  const isSprayed = ['foredeck', 'overside'].includes(step.place) && medianKn(weather.windKn) >= 17;
  const wet = (weather.rainMmPerH[i] ?? Number.NaN) >= 0.1 || isSprayed;
  const feltC = windChillC({ airC, deckWindKn }) - (wet ? settings.timeFactors.wetColderC : 0);
  if (step.hands === 'fine' && (feltC < -10 || (wet && airC < 5))) return Number.NaN;
  const hands = { hands: step.hands, exposureMin: work.workMin, gloves: settings.gloves, wet };
  return coldFactorRatio({ airC, deckWindKn, ...hands });
}

/** Gloves are worn outside, be the cold known or not. */
const plainGlovesRatio = (step: Step, { gloves }: TableSettings): number =>
  step.place === 'below' || gloves === 'none' ? 1 : gloves === 'thin' ? 1.15 : 1.35;

function heatRatio(
  of: { step: Step; airC: number; humidityRatio: number; isDark: boolean },
  settings: TableSettings,
): number {
  if (Number.isNaN(of.airC)) return 1;
  const humidityRatio = Number.isNaN(of.humidityRatio) ? settings.timeFactors.assumedHumidityRatio : of.humidityRatio;
  const air = { airC: of.airC, humidityRatio };
  const isInSun = of.step.place !== 'below' && !of.isDark;
  const wbgtC = isInSun ? wbgtEstimateC(air) : 0.7 * wetBulbC(air) + 0.3 * of.airC;
  const ratio = heatFactorRatio({ wbgtC, effort: of.step.effort });
  return ratio < 1.01 ? 1 : ratio;
}

function lookRatio(
  { course, weather }: Conditions,
  step: Step,
  of: { i: number; isDark: boolean; settings: TableSettings },
): number {
  if (step.lookout === 'full' || (step.lookout === 'glances' && step.place !== 'below')) return 1;
  const { slotCount, slotMin } = course.grid;
  const from = Math.min(of.i, slotCount - 2);
  const ownKn = Math.max(0, ((course.alongNm[from + 1] ?? 0) - (course.alongNm[from] ?? 0)) / (slotMin / 60));
  const { eyeHeightM, otherShipKn, longestMin } = of.settings.lookout;
  const visibilityNm = weather.visibilityNm[of.i] ?? Number.NaN;
  const seen = { eyeM: eyeHeightM, visibilityNm: Number.isNaN(visibilityNm) ? null : visibilityNm, isDark: of.isDark };
  const { intervalMin } = lookoutInterval({ ...seen, ownKn, otherKn: otherShipKn, longestMin });
  return lookoutFactorRatio({ place: step.place, intervalMin }) ?? Number.NaN;
}

function spansFrom(asked: Asked, reserveMin: number, i: number): SlotSpan[] {
  const { work, conditions } = asked;
  const { slotMin } = conditions.course.grid;
  const shares = sharesOf(work.block.steps);
  let fromMin = 0;
  return work.block.steps.map((step, k) => {
    const slowed = stepPace(asked, step, { i, w: null }) * otherRatio(asked, step, i);
    const toMin = fromMin + work.workMin * (shares[k] ?? 0) * slowed + (k === 0 ? work.resumeMin : 0);
    const span = {
      fromSlot: i + Math.floor(fromMin / slotMin + NEGLIGIBLE_MIN),
      toSlot: i + Math.ceil((toMin + reserveMin) / slotMin - NEGLIGIBLE_MIN),
    };
    fromMin = toMin;
    return span;
  });
}
