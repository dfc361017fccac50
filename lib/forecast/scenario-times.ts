import { MS_PER_H } from '../time/index.ts';
import { timingSdAtH } from './adjust-scenario-set.ts';
import { type NodeWeights, nodeWeights } from './error-draws.ts';
import { type AskedPoints, samplePair } from './sample-series.ts';
import type { ScenarioSet } from './scenario-set.ts';

/** Size of the errors at every asked point. */
export interface ErrorsAlong {
  readonly leadH: Float64Array;
  readonly nodes: NodeWeights;
  readonly windSdKn: Float64Array;
  readonly timingSdH: Float64Array;
  readonly directionSdDeg: Float64Array;
  /** How much earlier than forecast the weather is drawn on average. */
  readonly earlyH: Float64Array;
}

/** Errors along a course; null for a set that takes its forecast at its word. */
export function errorsAlong(set: ScenarioSet, asked: AskedPoints): ErrorsAlong | null {
  if (set.errors === null) return null;
  const { sizes, draws } = set.errors;
  const leadH = asked.points.epochMs.map((at) => Math.max(0, (at - set.forecast.baseEpochMs) / MS_PER_H));
  const timingSdH = leadH.map(sizes.timingSdH);
  const rising = sizes.earlySd === 0 ? null : risingShares(set, asked);
  return {
    leadH,
    nodes: nodeWeights(leadH, draws.nodeCount),
    windSdKn: leadH.map(sizes.windSdKn),
    timingSdH,
    directionSdDeg: leadH.map(sizes.directionSdDeg),
    earlyH: timingSdH.map((sd, i) => sizes.earlySd * sd * (rising?.[i] ?? 0)),
  };
}

/** Half the span over which rising wind is looked for, and the rise that counts in full. Ours. */
const RISE_HALF_SPAN_H = 3;
const FULL_RISE_KN = 4;

/** 0 where the reference wind is steady or falling, 1 where it rises by 4 kn or more in 6 h. */
function risingShares(set: ScenarioSet, asked: AskedPoints): Float64Array {
  const speedsAfter = (shiftH: number): Float64Array => {
    const wind = set.forecast.reference.get('wind');
    const times = asked.points.epochMs.map((at) => withinForecast(set, at, shiftH));
    if (wind === undefined) return new Float64Array(times.length).fill(Number.NaN);
    const { u, v } = samplePair(asked, wind, times);
    return Float64Array.from(u, (east, i) => Math.hypot(east, v[i] ?? Number.NaN));
  };
  const [before, after] = [speedsAfter(-RISE_HALF_SPAN_H), speedsAfter(RISE_HALF_SPAN_H)];
  return after.map((speed, i) => {
    const riseShare = (speed - (before[i] ?? Number.NaN)) / FULL_RISE_KN;
    return Number.isNaN(riseShare) ? 0 : Math.min(1, Math.max(0, riseShare));
  });
}

/**
 * An instant `shiftH` later, held inside the forecast: the shift is ours, so it must not lose hours the forecast
 * holds. An instant outside the forecast stays outside.
 */
function withinForecast(set: ScenarioSet, atEpochMs: number, shiftH: number): number {
  const { firstEpochMs, endEpochMs } = set.forecast;
  if (atEpochMs < firstEpochMs || atEpochMs > endEpochMs) return atEpochMs;
  return Math.min(endEpochMs, Math.max(firstEpochMs, atEpochMs + shiftH * MS_PER_H));
}

/**
 * Instants at which scenario w's member is read: weather that comes early is read from later.
 *
 * A shift that was seen takes the place of the drawn timing up to the hour it was last seen, smaller before it as the
 * timing error is. After that it stays as it is, and only what the error grows by is drawn: in variance, growing and
 * seen part make up the whole. So a shift seen with no certainty at all leaves every spread as it was.
 */
export function scenarioTimes(
  set: ScenarioSet,
  asked: AskedPoints,
  from: { readonly errors: ErrorsAlong | null; readonly scenarioIndex: number },
): Float64Array {
  const { errors, scenarioIndex } = from;
  const seenH = set.seenShiftH?.[scenarioIndex];
  if (seenH === undefined && errors === null) return asked.points.epochMs;
  const z = set.errors?.draws.timing[scenarioIndex] ?? 0;
  const seenSdH = seenTimingSdH(set);
  return asked.points.epochMs.map((at, i) => {
    const sdH = errors?.timingSdH[i] ?? 0;
    const earlyH = errors?.earlyH[i] ?? 0;
    if (seenH === undefined) return withinForecast(set, at, earlyH - z * sdH);
    if (seenSdH === null) return withinForecast(set, at, -seenH);
    return withinForecast(set, at, earlyH - seenPartH({ seenH, seenSdH, sdH, z }));
  });
}

/** Timing error of the hour a shift was last seen [h]; null: the shift holds for good. */
const seenTimingSdH = (set: ScenarioSet): number | null =>
  set.seenAtEpochMs === null || set.errors === null ? null : timingSdAtH(set, set.seenAtEpochMs);

function seenPartH(of: { seenH: number; seenSdH: number; sdH: number; z: number }): number {
  const { seenH, seenSdH, sdH, z } = of;
  return sdH <= seenSdH ? (seenH * sdH) / seenSdH : seenH + z * Math.sqrt(sdH * sdH - seenSdH * seenSdH);
}

/** Instants at which what all scenarios share is read. */
export const referenceTimes = (set: ScenarioSet, asked: AskedPoints): Float64Array =>
  set.referenceShiftH === 0
    ? asked.points.epochMs
    : asked.points.epochMs.map((at) => withinForecast(set, at, -set.referenceShiftH));
