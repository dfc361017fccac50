import { windFromUv } from '../units/index.ts';
import { estimatedGustKn } from '../weather/index.ts';
import { addErrors, type ScenarioArrays } from './add-errors.ts';
import type { QuantityId } from './quantity.ts';
import { type AskedPoints, askedPoints, samplePair, sampleSingle } from './sample-series.ts';
import { type ErrorsAlong, errorsAlong, referenceTimes, scenarioTimes } from './scenario-times.ts';
import { type ScenarioSet, type ScenarioSource, WEIGHT_SUM } from './scenario-set.ts';
import type { CoursePoints, WeatherAlong } from './weather-along.ts';

/**
 * Weather of every scenario along a course.
 *
 * A member is read at the shifted time; then the level error is added to wind speed (not below 1 kn) and sea (not
 * below 0.2 m), the direction turned, and the gust carried along: in the same ratio to the mean from 8 kn on, at
 * least 2 kn above it. Where the forecast is silent: NaN.
 */
export function sampleScenarios(set: ScenarioSet, points: CoursePoints): WeatherAlong {
  const asked = askedPoints(points);
  const { scenarioCount } = set;
  const pointCount = points.epochMs.length;
  const empty = (): Float32Array => new Float32Array(scenarioCount * pointCount);
  const out = { windKn: empty(), windFromDegTrue: empty(), gustKn: empty(), seaHeightM: empty() };
  const errors = errorsAlong(set, asked);
  const readMember = memberReader(asked);
  for (let w = 0; w < scenarioCount; w++) fillScenario({ set, asked, errors, scenarioIndex: w, readMember }, out);
  return { scenarioCount, pointCount, weights: set.weights, ...out, ...sampleShared(set, asked) };
}

/** One scenario: the control run (or the members' mean), without errors, at the shift the boat has seen. */
export function sampleReference(set: ScenarioSet, points: CoursePoints): WeatherAlong {
  const series = (id: QuantityId) => set.forecast.reference.get(id) ?? null;
  const source = {
    memberId: 'reference',
    wind: series('wind'),
    gust: series('gust'),
    seaHeight: series('seaHeight'),
    pressure: series('pressure'),
  };
  const weights = Int32Array.of(WEIGHT_SUM);
  return sampleScenarios(
    {
      ...set,
      scenarioCount: 1,
      weights,
      sources: [source],
      errors: null,
      seenShiftH: set.referenceShiftH === 0 ? null : Float64Array.of(set.referenceShiftH),
      seenAtEpochMs: null,
    },
    points,
  );
}

/** Pressure [hPa] of every scenario, scenario-major: each member at its shifted time. For comparison with a barometer. */
export function sampleScenarioPressure(set: ScenarioSet, points: CoursePoints): Float32Array {
  const asked = askedPoints(points);
  const pointCount = points.epochMs.length;
  const out = new Float32Array(set.scenarioCount * pointCount).fill(Number.NaN);
  const errors = errorsAlong(set, asked);
  const read = keptByTimes<ScenarioSource, Float32Array | null>(({ pressure }, times) =>
    pressure === null ? null : sampleSingle(asked, pressure, times),
  );
  for (const [scenarioIndex, source] of set.sources.entries()) {
    const values = read(source, scenarioTimes(set, asked, { errors, scenarioIndex }));
    if (values !== null) out.set(values, scenarioIndex * pointCount);
  }
  return out;
}

/** A member as it stands at some instants, without errors. */
interface MemberValues {
  readonly u: Float32Array;
  readonly v: Float32Array;
  readonly gustKn: Float32Array;
  readonly seaM: Float32Array;
}

type ReadMember = (source: ScenarioSource, times: Float64Array) => MemberValues;

function memberReader(asked: AskedPoints): ReadMember {
  return keptByTimes<ScenarioSource, MemberValues>((source, times) => {
    const missing = (): Float32Array => new Float32Array(times.length).fill(Number.NaN);
    const { u, v } = source.wind === null ? { u: missing(), v: missing() } : samplePair(asked, source.wind, times);
    return {
      u,
      v,
      gustKn: source.gust === null ? missing() : sampleSingle(asked, source.gust, times),
      seaM: source.seaHeight === null ? missing() : sampleSingle(asked, source.seaHeight, times),
    };
  });
}

/** Reads a source anew only where the instants differ from those it was last read at: seen shifts are often the same. */
function keptByTimes<S, V>(read: (source: S, times: Float64Array) => V): (source: S, times: Float64Array) => V {
  const kept = new Map<S, { readonly times: Float64Array; readonly values: V }>();
  return (source, times) => {
    const last = kept.get(source);
    if (last !== undefined && last.times.every((at, i) => at === times[i])) return last.values;
    const values = read(source, times);
    kept.set(source, { times, values });
    return values;
  };
}

interface Filling {
  readonly set: ScenarioSet;
  readonly asked: AskedPoints;
  readonly errors: ErrorsAlong | null;
  readonly scenarioIndex: number;
  readonly readMember: ReadMember;
}

function fillScenario(filling: Filling, out: ScenarioArrays): void {
  const { set, asked, errors, scenarioIndex, readMember } = filling;
  const source = set.sources[scenarioIndex];
  if (source === undefined) throw new Error('a scenario without a source');
  const times = scenarioTimes(set, asked, { errors, scenarioIndex });
  const { u, v, gustKn, seaM } = readMember(source, times);
  const first = scenarioIndex * times.length;
  for (let i = 0; i < times.length; i++) {
    const wind = windFromUv(u[i] ?? Number.NaN, v[i] ?? Number.NaN);
    out.windKn[first + i] = wind.speed;
    out.windFromDegTrue[first + i] = wind.fromDegTrue;
    out.gustKn[first + i] = gustKn[i] ?? Number.NaN;
    out.seaHeightM[first + i] = seaM[i] ?? Number.NaN;
  }
  if (errors !== null && set.errors !== null) addErrors({ ...set.errors, along: errors, scenarioIndex }, out);
  estimateGusts(out, { firstIndex: first, count: times.length, gustRatio: set.gustRatio });
}

/** Gusts the forecast does not hold, where it holds the mean. */
function estimateGusts(
  out: ScenarioArrays,
  span: { readonly firstIndex: number; readonly count: number; readonly gustRatio: number },
): void {
  for (let at = span.firstIndex; at < span.firstIndex + span.count; at++) {
    const gustKn = out.gustKn[at] ?? Number.NaN;
    if (gustKn !== gustKn) out.gustKn[at] = estimatedGustKn(out.windKn[at] ?? Number.NaN, span.gustRatio);
  }
}

type SharedArrays = Omit<WeatherAlong, keyof ScenarioArrays | 'scenarioCount' | 'pointCount' | 'weights'>;

function sampleShared(set: ScenarioSet, asked: AskedPoints): SharedArrays {
  const ownTimes = asked.points.epochMs;
  const times = referenceTimes(set, asked);
  const single = (id: QuantityId, epochMs = times): Float32Array => {
    const series = set.forecast.reference.get(id);
    return series === undefined
      ? new Float32Array(epochMs.length).fill(Number.NaN)
      : sampleSingle(asked, series, epochMs);
  };
  return {
    wavePeriodS: single('wavePeriod'),
    waveFromDegTrue: sampleWaveDirection(set, asked),
    pressureHpa: single('pressure'),
    rainMmPerH: single('rain'),
    // Air follows the sun more than the weather: it is never shifted.
    airC: single('air', ownTimes),
    humidityRatio: single('humidity', ownTimes).map((percent) => percent / 100),
    seaWaterC: single('seaWater', ownTimes),
    visibilityNm: single('visibility'),
  };
}

function sampleWaveDirection(set: ScenarioSet, asked: AskedPoints): Float32Array {
  const epochMs = referenceTimes(set, asked);
  const series = set.forecast.reference.get('waveDirection');
  if (series === undefined) return new Float32Array(epochMs.length).fill(Number.NaN);
  const { u, v } = samplePair(asked, series, epochMs);
  return u.map((east, i) => pointsTo(east, v[i] ?? Number.NaN));
}

/** Direction in which a vector points [degrees true]; opposite directions cancel to nothing, which is NaN. */
function pointsTo(u: number, v: number): number {
  return Math.hypot(u, v) < 1e-6 ? Number.NaN : windFromUv(-u, -v).fromDegTrue;
}
