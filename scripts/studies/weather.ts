/**
 * Weather for studies: made up, seeded, and with a truth that can be drawn from the same distribution as the forecast's
 * scenarios, which no real forecast allows.
 *
 * Waves of wind travel along the track; the sea follows the wind by six hours. A forecast is an ensemble of members that
 * drift apart with lead (level: a lasting and an AR(1) part; timing; direction; sea), each dressed with errors of its own:
 * once for planning, over and over for reporting, and anew for every truth.
 */
import type { CoursePoints, WeatherAlong } from '../../lib/forecast/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import { uniformDraws } from '../sample-forecasts/random.ts';
import { drawMember, dressed, noErrors, NODE_H, type Uniform, type WeatherErrors } from './error-paths.ts';
import { drawPattern, patternLaggedKn, patternWindKn, SEA_LAG_H, type WeatherPattern } from './weather-pattern.ts';

export const BASE_EPOCH_MS = Date.UTC(2026, 5, 1);
export const START_POSITION = { lat: -35, lon: -30 } as const;

export interface StudyForecast {
  readonly pattern: WeatherPattern;
  readonly lengthH: number;
  readonly members: readonly WeatherErrors[];
}

export function drawForecast(
  seed: number,
  of: { readonly lengthH: number; readonly memberCount: number },
): StudyForecast {
  const uniform = uniformDraws(seed);
  const nodeCount = Math.ceil(of.lengthH / NODE_H) + 2;
  const pattern = drawPattern(uniform);
  const members = Array.from({ length: of.memberCount }, () => drawMember(uniform, nodeCount));
  return { pattern, lengthH: of.lengthH, members };
}

/** A set of scenarios as the planner reads one. */
export interface StudyScenarios {
  readonly baseEpochMs: number;
  readonly endEpochMs: number;
  readonly weights: Int32Array;
  readonly memberIndex: Int32Array;
  readonly errors: readonly WeatherErrors[];
  readonly sampleScenarios: (points: CoursePoints) => WeatherAlong;
  readonly sampleReference: (points: CoursePoints) => WeatherAlong;
}

/** Every member dressed, in turn, until there are so many scenarios. */
export function drawScenarios(forecast: StudyForecast, seed: number, scenarioCount: number): StudyScenarios {
  const uniform = uniformDraws(seed);
  const memberIndex = Int32Array.from({ length: scenarioCount }, (_, w) => w % forecast.members.length);
  const errors = Array.from(memberIndex, (member) => dressed(memberAt(forecast, member), uniform));
  return scenariosOf(forecast, errors, memberIndex);
}

/** What may really happen, drawn as the scenarios are: any member, dressed anew. */
export function drawTruths(forecast: StudyForecast, seed: number, count: number): WeatherErrors[] {
  const uniform = uniformDraws(seed);
  return Array.from({ length: count }, () =>
    dressed(memberAt(forecast, Math.floor(uniform() * forecast.members.length)), uniform),
  );
}

/** What may really happen where the truth is one more member, which the forecast does not hold. */
export function drawOtherMembers(forecast: StudyForecast, seed: number, count: number): WeatherErrors[] {
  const uniform: Uniform = uniformDraws(seed);
  const nodeCount = forecast.members[0]?.windKn.length ?? 2;
  return Array.from({ length: count }, () => dressed(drawMember(uniform, nodeCount), uniform));
}

function memberAt(forecast: StudyForecast, index: number): WeatherErrors {
  const member = forecast.members[index];
  if (member === undefined) throw new Error(`there is no member ${index}`);
  return member;
}

/** Scenarios of equal weight from their errors. */
export function scenariosOf(
  forecast: StudyForecast,
  errors: readonly WeatherErrors[],
  memberIndex: Int32Array = Int32Array.from(errors, (_, w) => w),
): StudyScenarios {
  const laid = errors.map(withLaggedWind);
  const none = [withLaggedWind(noErrors(Math.ceil(forecast.lengthH / NODE_H) + 2))];
  return {
    baseEpochMs: BASE_EPOCH_MS,
    endEpochMs: BASE_EPOCH_MS + forecast.lengthH * MS_PER_H,
    weights: equalWeights(errors.length),
    memberIndex,
    errors,
    sampleScenarios: (points) => sampled(forecast.pattern, laid, points),
    sampleReference: (points) => sampled(forecast.pattern, none, points),
  };
}

function equalWeights(count: number): Int32Array {
  const part = (k: number): number => Math.floor((1_000_000 * k) / count);
  return Int32Array.from({ length: count }, (_, k) => part(k + 1) - part(k));
}

interface Laid extends WeatherErrors {
  /** Errors of the wind as the sea has felt them so far. */
  readonly laggedKn: Float64Array;
}

function withLaggedWind(errors: WeatherErrors): Laid {
  const keptRatio = Math.exp(-NODE_H / SEA_LAG_H);
  let lagged = errors.windKn[0] ?? 0;
  const laggedKn = errors.windKn.map((value) => {
    lagged = keptRatio * lagged + (1 - keptRatio) * value;
    return lagged;
  });
  return { ...errors, laggedKn };
}

const NM_PER_DEG = 60;

function sampled(pattern: WeatherPattern, laid: readonly Laid[], points: CoursePoints): WeatherAlong {
  const pointCount = points.epochMs.length;
  const empty = (): Float32Array => new Float32Array(laid.length * pointCount);
  const out = { windKn: empty(), windFromDegTrue: empty(), gustKn: empty(), seaHeightM: empty() };
  const hourH = Float64Array.from(points.epochMs, (at) => (at - BASE_EPOCH_MS) / MS_PER_H);
  const eastNm = Float64Array.from(
    points.lon,
    (lon, i) => (lon - START_POSITION.lon) * NM_PER_DEG * Math.cos(((points.lat[i] ?? 0) * Math.PI) / 180),
  );
  for (const [w, errors] of laid.entries()) {
    for (let i = 0; i < pointCount; i++) {
      const [at, east] = [hourH[i] ?? 0, eastNm[i] ?? 0];
      const seenH = at + nodeAt(errors.earlyH, at);
      const windKn = Math.max(1, patternWindKn(pattern, seenH, east) + nodeAt(errors.windKn, at));
      const feltKn = Math.max(0, patternLaggedKn(pattern, seenH, east) + nodeAt(errors.laggedKn, at));
      const k = w * pointCount + i;
      out.windKn[k] = windKn;
      out.gustKn[k] = windKn * 1.3;
      out.windFromDegTrue[k] = fromDegTrue(pattern, seenH, errors.turnDeg);
      out.seaHeightM[k] = (0.3 + 0.0075 * feltKn * feltKn + pattern.swellM) * errors.seaRatio;
    }
  }
  return {
    scenarioCount: laid.length,
    pointCount,
    weights: new Int32Array(laid.length).fill(1),
    ...out,
    ...sharedAlong(pointCount),
  };
}

const fromDegTrue = (pattern: WeatherPattern, hourH: number, turnDeg: number): number =>
  (pattern.windFromDegTrue + pattern.veerDeg * Math.sin((2 * Math.PI * hourH) / 50) + turnDeg + 720) % 360;

function sharedAlong(pointCount: number): Omit<WeatherAlong, 'scenarioCount' | 'pointCount' | 'weights' | ScenarioKey> {
  const all = (value: number): Float32Array => new Float32Array(pointCount).fill(value);
  return {
    wavePeriodS: all(9),
    waveFromDegTrue: all(210),
    pressureHpa: all(1015),
    rainMmPerH: all(0),
    airC: all(19),
    humidityRatio: all(0.75),
    seaWaterC: all(18),
    visibilityNm: all(12),
  };
}

type ScenarioKey = 'windKn' | 'windFromDegTrue' | 'gustKn' | 'seaHeightM';

/** Linear between nodes; before the first and beyond the last as there. */
function nodeAt(nodes: Float64Array, hourH: number): number {
  const place = Math.min(Math.max(hourH / NODE_H, 0), nodes.length - 1);
  const node = Math.min(Math.floor(place), nodes.length - 2);
  const low = nodes[node] ?? 0;
  return low + ((nodes[node + 1] ?? 0) - low) * (place - node);
}
