import { uvFromWind, windFromUv, wrap360Deg } from '../../units/index.ts';
import { type Digest, LANES_NM } from './digest.ts';

/** The reference weather of a digest on its lanes; arrays are lane-major, `lane * stepCount + step`. */
export interface LaneWeather {
  /** Miles behind the nominal voyage, ascending, 0 among them. */
  readonly lanesNm: readonly number[];
  readonly stepCount: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly seaM: Float64Array;
  readonly gustKn: Float64Array;
}

/** One instant on one lane. */
export interface LaneInstant {
  readonly windKn: number;
  readonly windFromDegTrue: number;
  readonly seaM: number;
  readonly gustKn: number;
}

/** Below this mean, a gust's excess does not grow with it: in near-calm the ratio means nothing. As the scenarios' own. */
const GUST_RATIO_FROM_KN = 8;

/** Lays the lanes of a digest out side by side. */
export function laneWeather(digest: Digest): LaneWeather {
  const { stepCount } = digest;
  const lanesNm = [...LANES_NM, 0].toSorted((a, b) => a - b);
  const size = lanesNm.length * stepCount;
  const empty = (): Float64Array => new Float64Array(size).fill(Number.NaN);
  const weather = { lanesNm, stepCount, u: empty(), v: empty(), seaM: empty(), gustKn: empty() };
  for (const [laneIndex, laneNm] of lanesNm.entries()) {
    const differences = digest.lanes[LANES_NM.findIndex((nm) => nm === laneNm)] ?? null;
    for (let stepIndex = 0; stepIndex < stepCount; stepIndex++) {
      const windKn = Math.max(0, at(digest.windKn, stepIndex) + (differences ? at(differences.windKn, stepIndex) : 0));
      const turnDeg = differences ? at(differences.turnDeg, stepIndex) : 0;
      const wind = uvFromWind({
        speed: windKn,
        fromDegTrue: wrap360Deg(at(digest.windFromDegTrue, stepIndex) + turnDeg),
      });
      const k = laneIndex * stepCount + stepIndex;
      weather.u[k] = wind.u;
      weather.v[k] = wind.v;
      weather.seaM[k] = Math.max(
        0,
        at(digest.seaHeightM, stepIndex) + (differences ? at(differences.seaM, stepIndex) : 0),
      );
      weather.gustKn[k] = gustAlong({
        gustKn: at(digest.gustKn, stepIndex),
        besideKn: at(digest.windKn, stepIndex),
        windKn,
      });
    }
  }
  return weather;
}

const at = (values: readonly number[], index: number): number => values[index] ?? Number.NaN;

/** A gust carried from one mean wind to another, in proportion from 8 kn on. */
export const gustAlong = (of: {
  readonly gustKn: number;
  readonly besideKn: number;
  readonly windKn: number;
}): number =>
  of.windKn +
  (of.gustKn - of.besideKn) * (Math.max(of.windKn, GUST_RATIO_FROM_KN) / Math.max(of.besideKn, GUST_RATIO_FROM_KN));

/** The weather at a step, between steps too, on a lane by its index; before the first and after the last step as there. */
export function laneInstant(weather: LaneWeather, laneIndex: number, stepIndex: number): LaneInstant {
  const place = Math.min(Math.max(stepIndex, 0), weather.stepCount - 1);
  const k = Math.min(Math.floor(place), weather.stepCount - 2);
  const share = place - k;
  const between = (values: Float64Array): number => {
    const earlier = values[laneIndex * weather.stepCount + k] ?? Number.NaN;
    const later = values[laneIndex * weather.stepCount + k + 1] ?? Number.NaN;
    if (share === 0) return earlier;
    return share === 1 ? later : earlier + (later - earlier) * share;
  };
  const wind = windFromUv(between(weather.u), between(weather.v));
  return {
    windKn: wind.speed,
    windFromDegTrue: wind.fromDegTrue,
    seaM: between(weather.seaM),
    gustKn: between(weather.gustKn),
  };
}
