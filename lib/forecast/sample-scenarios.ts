import { windFromUv, wrap360Deg } from '../units/index.ts';
import { estimatedGustKn } from '../weather/index.ts';
import type { ErrorSizes } from './error-draws.ts';
import { gustRatioFromKn, leastDrawnSeaHeightM, leastDrawnWindKn, leastGustExcessKn } from './error-figures.ts';
import type { QuantityId } from './quantity.ts';
import { type AskedPoints, askedPoints, samplePair, sampleSingle } from './sample-series.ts';
import { type ErrorsAlong, errorsAlong, scenarioTimes } from './scenario-times.ts';
import { type ScenarioSet, WEIGHT_SUM } from './scenario-set.ts';
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
  for (let w = 0; w < scenarioCount; w++) fillScenario({ set, asked, errors, scenarioIndex: w }, out);
  return { scenarioCount, pointCount, ...out, ...sampleShared(set, asked) };
}

/** One scenario: the control run (or the members' mean) as it is. */
export function sampleReference(set: ScenarioSet, points: CoursePoints): WeatherAlong {
  const series = (id: QuantityId) => set.reference.get(id) ?? null;
  const source = {
    memberId: 'reference',
    wind: series('wind'),
    gust: series('gust'),
    seaHeight: series('seaHeight'),
    pressure: series('pressure'),
  };
  const weights = Int32Array.of(WEIGHT_SUM);
  return sampleScenarios(
    { ...set, scenarioCount: 1, weights, sources: [source], errors: null, seenShiftH: null },
    points,
  );
}

/** Pressure [hPa] of every scenario, scenario-major: each member at its shifted time. For comparison with a barometer. */
export function sampleScenarioPressure(set: ScenarioSet, points: CoursePoints): Float32Array {
  const asked = askedPoints(points);
  const pointCount = points.epochMs.length;
  const out = new Float32Array(set.scenarioCount * pointCount).fill(Number.NaN);
  const errors = errorsAlong(set, asked);
  for (const [scenarioIndex, { pressure }] of set.sources.entries()) {
    if (pressure === null) continue;
    const times = scenarioTimes(set, asked, { errors, scenarioIndex });
    out.set(sampleSingle(asked, pressure, times), scenarioIndex * pointCount);
  }
  return out;
}

type ScenarioArrays = Pick<WeatherAlong, 'windKn' | 'windFromDegTrue' | 'gustKn' | 'seaHeightM'>;

interface Filling {
  readonly set: ScenarioSet;
  readonly asked: AskedPoints;
  readonly errors: ErrorsAlong | null;
  readonly scenarioIndex: number;
}

function fillScenario(filling: Filling, out: ScenarioArrays): void {
  const { set, asked, errors, scenarioIndex } = filling;
  const source = set.sources[scenarioIndex];
  if (source === undefined) throw new Error('a scenario without a source');
  const times = scenarioTimes(set, asked, { errors, scenarioIndex });
  const missing = (): Float32Array => new Float32Array(times.length).fill(Number.NaN);
  const { u, v } = source.wind === null ? { u: missing(), v: missing() } : samplePair(asked, source.wind, times);
  const gust = source.gust === null ? missing() : sampleSingle(asked, source.gust, times);
  const sea = source.seaHeight === null ? missing() : sampleSingle(asked, source.seaHeight, times);
  const first = scenarioIndex * times.length;
  for (let i = 0; i < times.length; i++) {
    const wind = windFromUv(u[i] as number, v[i] as number);
    out.windKn[first + i] = wind.speed;
    out.windFromDegTrue[first + i] = wind.fromDegTrue;
    out.gustKn[first + i] = gust[i] as number;
    out.seaHeightM[first + i] = sea[i] as number;
  }
  if (errors !== null) addErrors(filling, errors, out);
  estimateGusts(out, { first, count: times.length, gustRatio: set.gustRatio });
}

/** Level, direction and gust of one scenario, in place. */
function addErrors({ set, scenarioIndex }: Filling, along: ErrorsAlong, out: ScenarioArrays): void {
  if (set.errors === null) return;
  const { draws, sizes } = set.errors;
  const { nodeIndex, earlier, later } = along.nodes;
  const nodeStart = scenarioIndex * draws.nodeCount;
  const first = scenarioIndex * along.leadH.length;
  const turnSd = draws.direction[scenarioIndex] as number;
  for (let i = 0; i < along.leadH.length; i++) {
    const node = nodeStart + (nodeIndex[i] as number);
    const windZ =
      (draws.wind[node] as number) * (earlier[i] as number) + (draws.wind[node + 1] as number) * (later[i] as number);
    const seaZ =
      (draws.sea[node] as number) * (earlier[i] as number) + (draws.sea[node + 1] as number) * (later[i] as number);
    const at = first + i;
    const forecastKn = out.windKn[at] as number;
    const drawnKn = Math.max(leastDrawnWindKn, forecastKn + windZ * (along.windSdKn[i] as number));
    out.windKn[at] = drawnKn;
    out.windFromDegTrue[at] = wrap360Deg(
      (out.windFromDegTrue[at] as number) + turnSd * (along.directionSdDeg[i] as number),
    );
    out.gustKn[at] = gustWith({ forecastKn, drawnKn, forecastGustKn: out.gustKn[at] as number });
    out.seaHeightM[at] = drawnSeaM(sizes, {
      seaHeightM: out.seaHeightM[at] as number,
      leadH: along.leadH[i] as number,
      z: seaZ,
    });
  }
}

function drawnSeaM(sizes: ErrorSizes, at: { seaHeightM: number; leadH: number; z: number }): number {
  return Math.max(leastDrawnSeaHeightM, at.seaHeightM + at.z * sizes.seaSdM(at));
}

/** The gust that goes with a drawn mean: its excess grows with the mean, from 8 kn on in proportion. */
function gustWith(of: { forecastKn: number; drawnKn: number; forecastGustKn: number }): number {
  const excessKn = Math.max(0, of.forecastGustKn - of.forecastKn);
  const scale = Math.max(of.drawnKn, gustRatioFromKn) / Math.max(of.forecastKn, gustRatioFromKn);
  return of.drawnKn + Math.max(leastGustExcessKn, excessKn * scale);
}

/** Gusts the forecast does not hold, where it holds the mean. */
function estimateGusts(
  out: ScenarioArrays,
  span: { readonly first: number; readonly count: number; readonly gustRatio: number },
): void {
  for (let at = span.first; at < span.first + span.count; at++) {
    const gustKn = out.gustKn[at] as number;
    if (gustKn !== gustKn) out.gustKn[at] = estimatedGustKn(out.windKn[at] as number, span.gustRatio);
  }
}

type SharedArrays = Omit<WeatherAlong, keyof ScenarioArrays | 'scenarioCount' | 'pointCount'>;

function sampleShared(set: ScenarioSet, asked: AskedPoints): SharedArrays {
  const { epochMs } = asked.points;
  const single = (id: QuantityId): Float32Array => {
    const series = set.reference.get(id);
    return series === undefined
      ? new Float32Array(epochMs.length).fill(Number.NaN)
      : sampleSingle(asked, series, epochMs);
  };
  return {
    wavePeriodS: single('wavePeriod'),
    waveFromDegTrue: sampleWaveDirection(set, asked),
    pressureHpa: single('pressure'),
    rainMmPerH: single('rain'),
    airC: single('air'),
    seaWaterC: single('seaWater'),
  };
}

function sampleWaveDirection(set: ScenarioSet, asked: AskedPoints): Float32Array {
  const { epochMs } = asked.points;
  const series = set.reference.get('waveDirection');
  if (series === undefined) return new Float32Array(epochMs.length).fill(Number.NaN);
  const { u, v } = samplePair(asked, series, epochMs);
  return u.map((east, i) => pointsTo(east, v[i] as number));
}

/** Direction in which a vector points [degrees true]; opposite directions cancel to nothing, which is NaN. */
function pointsTo(east: number, north: number): number {
  return Math.hypot(east, north) < 1e-6 ? Number.NaN : windFromUv(-east, -north).fromDegTrue;
}
