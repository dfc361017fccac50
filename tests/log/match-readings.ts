/** Readings of a front without errors, and scenario sets of the forecast of it. All of it is invented. */
import { buildScenarioSet, type Forecast, sampleReference, type ScenarioSet } from '../../lib/forecast/index.ts';
import type { SeenWeather } from '../../lib/log/index.ts';
import { MS_PER_H } from '../../lib/time/index.ts';
import {
  frontForecast,
  type FrontPattern,
  MATCH_BASE_EPOCH_MS,
  MATCH_PLACE,
} from '../../scripts/studies/match-weather.ts';

const FRONTS: FrontPattern = { frontsAtH: [-20, 28, 70, 112], calmKn: 6, peakKn: 22, fallHpa: 12 };

export const atHourEpochMs = (hourH: number): number => MATCH_BASE_EPOCH_MS + hourH * MS_PER_H;

/** The fronts so many hours later than forecast. */
export const laterFronts = (laterH: number): Forecast =>
  frontForecast({ ...FRONTS, frontsAtH: FRONTS.frontsAtH.map((at) => at + laterH) }, 1, 0);

export const everyH = (fromH: number, toH: number, stepH: number): number[] =>
  Array.from({ length: Math.floor((toH - fromH) / stepH) + 1 }, (_, k) => fromH + k * stepH);

export function setOfForecast(forecast: Forecast, more: object = {}): ScenarioSet {
  return buildScenarioSet(forecast, {
    errorModel: 'default',
    purpose: 'reporting',
    seed: 1,
    spreadInflationRatio: 1,
    gustRatio: 1.3,
    drawCount: 128,
    ...more,
  });
}

/** What is read of a weather at those hours, changed as told. */
export function readingsOf(
  weather: Forecast,
  hoursH: readonly number[],
  changed: (one: Required<SeenWeather>) => SeenWeather = (one) => one,
): SeenWeather[] {
  const along = sampleReference(setOfForecast(weather), {
    epochMs: Float64Array.from(hoursH, atHourEpochMs),
    lat: new Float64Array(hoursH.length).fill(MATCH_PLACE.lat),
    lon: new Float64Array(hoursH.length).fill(MATCH_PLACE.lon),
  });
  return hoursH.map((hourH, i) =>
    changed({
      epochMs: atHourEpochMs(hourH),
      ...MATCH_PLACE,
      windKn: along.windKn[i] ?? 0,
      windFromDegTrue: along.windFromDegTrue[i] ?? 0,
      gustKn: along.gustKn[i] ?? 0,
      pressureHpa: along.pressureHpa[i] ?? 0,
      seaHeightM: along.seaHeightM[i] ?? 0,
    }),
  );
}
