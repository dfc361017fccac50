/**
 * Whether weights from the log make later weather likelier: a truth is drawn, read with errors, and the scenarios so
 * weighed are held against the weather of the next two days, and so are the unweighted ones.
 */
import {
  buildScenarioSet,
  type CoursePoints,
  type Forecast,
  sampleScenarioPressure,
  sampleScenarios,
  type ScenarioSet,
  widenErrors,
} from '../../lib/forecast/index.ts';
import { adjustByLog, matchForecast, type SeenWeather } from '../../lib/log/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { drawFronts, frontForecast, MATCH_BASE_EPOCH_MS, MATCH_PLACE } from './match-weather.ts';

export interface MatchTrial {
  readonly seed: number;
  readonly memberCount: number;
  readonly readingCount: number;
  /** Over which the readings are spread, ending at lead 30 h. */
  readonly spanH: number;
  readonly drawCount: number;
  /** Errors of the truth against those of the model; 1: drawn as the scenarios are. */
  readonly truthErrorRatio: number;
}

/** Weighted less unweighted: positive is better. */
export interface MatchGain {
  /** Log density of wind and pressure, mean over the hours ahead [nats]. */
  readonly windGain: number;
  readonly pressureGain: number;
  /** Brier score of "gust at most 20 kn", sign turned. */
  readonly gustGain: number;
  readonly agreement: 'good' | 'fair' | 'poor' | 'none';
  /** Shift found less shift of the truth [h]. */
  readonly shiftErrorH: number;
}

const LAST_READ_H = 30;
const AHEAD_H = Array.from({ length: 16 }, (_, k) => LAST_READ_H + 3 * (k + 1));
const GUST_LIMIT_KN = 20;

/** So many forecasts serve all trials: writing one takes longer than a trial. */
const PATTERN_COUNT = 6;

const forecasts = new Map<string, Forecast>();

/** The forecast of a trial; truths differ by seed. */
function forecastOf({ seed, memberCount }: MatchTrial): Forecast {
  const pattern = seed % PATTERN_COUNT;
  const key = `${pattern} ${memberCount}`;
  const known = forecasts.get(key) ?? frontForecast(drawFronts(pattern), pattern, memberCount);
  forecasts.set(key, known);
  return known;
}

const along = (hoursH: readonly number[]): CoursePoints => ({
  epochMs: Float64Array.from(hoursH, (hourH) => MATCH_BASE_EPOCH_MS + hourH * MS_PER_H),
  lat: new Float64Array(hoursH.length).fill(MATCH_PLACE.lat),
  lon: new Float64Array(hoursH.length).fill(MATCH_PLACE.lon),
});

/** One trial. The truth is one scenario of another seed, so that none of the set is it. */
export function matchTrial(trial: MatchTrial): MatchGain {
  const forecast = forecastOf(trial);
  const options = { errorModel: 'default', spreadInflationRatio: 1, gustRatio: 1.3 } as const;
  const truthSet = buildScenarioSet(forecast, {
    ...options,
    seed: 90_000 + trial.seed,
    purpose: 'reporting',
    drawCount: 64,
  });
  const truth = oneOf(widenErrors(truthSet, trial.truthErrorRatio), trial.seed % 64);
  const set = buildScenarioSet(forecast, { ...options, seed: 1, purpose: 'reporting', drawCount: trial.drawCount });
  const match = matchForecast(set, readTruth(truth, trial));
  const seen = adjustByLog(set, match);
  const [ours, theirs] = [scoresOf(seen, truth), scoresOf(set, truth)];
  return {
    windGain: ours.windLog - theirs.windLog,
    pressureGain: ours.pressureLog - theirs.pressureLog,
    gustGain: theirs.brier - ours.brier,
    agreement: match.kind === 'compared' ? match.agreement : 'none',
    shiftErrorH: match.kind === 'compared' ? match.timing.shiftH - trueShiftH(truth) : Number.NaN,
  };
}

const trueShiftH = ({ errors }: ScenarioSet): number =>
  errors === null ? 0 : (errors.draws.timing[0] ?? 0) * errors.sizes.timingSdH(LAST_READ_H);

/** A set of one scenario of a set. */
function oneOf(set: ScenarioSet, w: number): ScenarioSet {
  const { errors } = set;
  const source = set.sources[w];
  if (errors === null || source === undefined) throw new Error(`no scenario ${w}`);
  const { nodeCount, wind, sea, timing, direction } = errors.draws;
  const nodes = (all: Float64Array): Float64Array => all.slice(w * nodeCount, (w + 1) * nodeCount);
  const draws = {
    nodeCount,
    wind: nodes(wind),
    sea: nodes(sea),
    timing: timing.slice(w, w + 1),
    direction: direction.slice(w, w + 1),
  };
  const weights = Int32Array.of(1_000_000);
  return { ...set, scenarioCount: 1, weights, sources: [source], errors: { ...errors, draws } };
}

/** Neighbouring slips of reading are alike for about so long. */
const ALIKE_H = 1.5;

/** The truth as it is read: with errors of the sizes stated, alike from hour to hour, and a barometer that is off. */
function readTruth(truth: ScenarioSet, { seed, readingCount, spanH }: MatchTrial): SeenWeather[] {
  const uniform = uniformDraws(50_000 + seed);
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const stepH = readingCount < 2 ? 0 : spanH / (readingCount - 1);
  const hoursH = Array.from({ length: readingCount }, (_, k) => LAST_READ_H - (readingCount - 1 - k) * stepH);
  const points = along(hoursH);
  const weather = sampleScenarios(truth, points);
  const pressure = sampleScenarioPressure(truth, points);
  const offsetHpa = 2 * normal();
  const kept = Math.exp(-stepH / ALIKE_H);
  let errors = [normal(), normal(), normal(), normal()];
  return hoursH.map((_, i) => {
    if (i > 0) errors = errors.map((error) => kept * error + Math.sqrt(1 - kept * kept) * normal());
    const [windError = 0, turnError = 0, pressureError = 0, seaError = 0] = errors;
    const trueKn = weather.windKn[i] ?? 0;
    const trueM = weather.seaHeightM[i] ?? 0;
    return {
      epochMs: points.epochMs[i] ?? 0,
      ...MATCH_PLACE,
      windKn: Math.max(0, trueKn + windError * Math.hypot(2, 0.15 * trueKn)),
      windFromDegTrue:
        ((weather.windFromDegTrue[i] ?? 0) + turnError * Math.hypot(12, 115 / Math.max(2, trueKn)) + 720) % 360,
      pressureHpa: (pressure[i] ?? 0) + offsetHpa + 0.7 * pressureError,
      seaHeightM: Math.max(0, trueM + seaError * Math.max(0.4, 0.2 * trueM)),
    };
  });
}

/** Width of the kernels: about what a reading is worth. */
const WIND_KERNEL_KN = 2;
const PRESSURE_KERNEL_HPA = 1;

function scoresOf(set: ScenarioSet, truth: ScenarioSet): { windLog: number; pressureLog: number; brier: number } {
  const points = along(AHEAD_H);
  const [weather, true1] = [sampleScenarios(set, points), sampleScenarios(truth, points)];
  const shareBelow = AHEAD_H.map((_, i) =>
    set.weights.reduce(
      (sum, weight, w) => sum + ((weather.gustKn[w * AHEAD_H.length + i] ?? 0) <= GUST_LIMIT_KN ? weight / 1e6 : 0),
      0,
    ),
  );
  const brier = shareBelow.map((share, i) => (share - Number((true1.gustKn[i] ?? 0) <= GUST_LIMIT_KN)) ** 2);
  return {
    windLog: logScore(set, [weather.windKn, true1.windKn], WIND_KERNEL_KN),
    pressureLog: logScore(
      set,
      [sampleScenarioPressure(set, points), sampleScenarioPressure(truth, points)],
      PRESSURE_KERNEL_HPA,
    ),
    brier: brier.reduce((sum, one) => sum + one, 0) / brier.length,
  };
}

/** Mean log density of the truth in the weighted scenarios, each a normal kernel. */
function logScore(set: ScenarioSet, [values, truth]: readonly [Float32Array, Float32Array], kernelSd: number): number {
  const logs = AHEAD_H.map((_, i) => {
    let density = 0;
    for (const [w, weight] of set.weights.entries()) {
      const z = ((values[w * AHEAD_H.length + i] ?? 0) - (truth[i] ?? 0)) / kernelSd;
      density += weight * Math.exp(-(z * z) / 2);
    }
    return Math.log(Math.max(density / 1e6, 1e-12));
  });
  return logs.reduce((sum, log) => sum + log, 0) / logs.length;
}

/** Mean and standard error of values. */
export function meanAndError(values: readonly number[]): { mean: number; errorSd: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const square = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, errorSd: Math.sqrt(square / Math.max(1, values.length - 1) / values.length) };
}
