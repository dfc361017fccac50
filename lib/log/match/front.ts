import { type CoursePoints, sampleReference, type ScenarioSet } from '../../forecast/index.ts';
import { MS_PER_H } from '../../time/index.ts';
import type { SeenWeather } from './seen-weather.ts';

/** Wind that turns so far in so many hours, and is not light, is taken for a front. Ours. */
const FRONT_TURN_DEG = 40;
const FRONT_SPAN_H = 6;
const FRONT_WIND_KN = 8;

/** Whether a front stands in the forecast around the readings: only then is its shift one of a front. */
export function isFrontNear(set: ScenarioSet, seen: readonly SeenWeather[]): boolean {
  const [first, last] = [seen[0], seen.at(-1)];
  if (first === undefined || last === undefined) return false;
  const hours = Math.floor((last.epochMs - first.epochMs) / MS_PER_H) + 2 * FRONT_SPAN_H + 1;
  const epochMs = Float64Array.from({ length: hours }, (_, h) => first.epochMs + (h - FRONT_SPAN_H) * MS_PER_H);
  const weather = sampleReference(set, alongReadings(seen, epochMs));
  return Array.from(epochMs.keys()).some((i) => {
    const later = i + FRONT_SPAN_H;
    const [before, after] = [weather.windFromDegTrue[i], weather.windFromDegTrue[later]];
    const speeds = [weather.windKn[i] ?? 0, weather.windKn[later] ?? 0];
    if (before === undefined || after === undefined) return false;
    const turnDeg = Math.abs(after - before - 360 * Math.round((after - before) / 360));
    return turnDeg >= FRONT_TURN_DEG && Math.max(...speeds) >= FRONT_WIND_KN;
  });
}

/** Every hour where the boat was nearest to it in time. */
function alongReadings(seen: readonly SeenWeather[], epochMs: Float64Array): CoursePoints {
  const nearest = Array.from(epochMs, (at) =>
    seen.reduce((best, one) => (Math.abs(one.epochMs - at) < Math.abs(best.epochMs - at) ? one : best)),
  );
  return {
    epochMs,
    lat: Float64Array.from(nearest, ({ lat }) => lat),
    lon: Float64Array.from(nearest, ({ lon }) => lon),
  };
}
