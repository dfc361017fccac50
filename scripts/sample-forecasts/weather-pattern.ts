/** The invented weather: one script that moves over the map as a fixed pattern, toward the east. */
import { radFromDeg, wrap180Deg } from '../../lib/units/index.ts';
import { seaGrowthSdM } from './error-growth.ts';
import { scriptAt, type ScriptWeather, worseningShare } from './script-at.ts';

/** Hours count from the start of the demo voyage; this is the forecast's lead then. */
export const LEAD_AT_START_H = 6;

const START = { lat: -36.3, lon: 178.1 } as const;
const PATTERN_SPEED_KN = 28;
const PATTERN_TOWARD_DEG_TRUE = 80;
/** A boat that makes this good along the pattern's way meets the script at its own hours. */
const BOAT_SPEED_KN = 5.8;
/** Wind and sea are stronger farther south. */
const GROWTH_PER_DEG_SOUTH_RATIO = 0.04;
/** Gusts exceed the mean at least by this. */
const LEAST_GUST_EXCESS_KN = 2;
/** A forecast calm is seldom a flat one. */
const LEAST_MEMBER_WIND_KN = 1.5;
const LEAST_MEMBER_SEA_M = 0.8;

/** Where a point lies in the pattern. */
export interface PatternPlace {
  /** Distance from the start along the pattern's way. */
  readonly alongNm: number;
  /** Negative: north of the start. */
  readonly southOfStartDeg: number;
}

/** What one member has wrong at one instant, in amounts that do not depend on the place. */
export interface MemberError {
  /** Standard deviations by which weather comes early. */
  readonly timingSdH: number;
  readonly timingDeviates: number;
  /** Deviates for rising wind: bad weather tends to come early. */
  readonly worseningDeviates: number;
  readonly windKn: number;
  readonly directionDeg: number;
  readonly leadH: number;
  readonly seaDeviates: number;
}

/** All that the sample files hold, at one place and instant. */
export interface PatternWeather {
  readonly windKn: number;
  readonly windFromDegTrue: number;
  readonly gustKn: number;
  readonly seaHeightM: number;
  readonly peakPeriodS: number;
  readonly waveFromDegTrue: number;
  readonly rainMmPerH: number;
  readonly airC: number;
  readonly pressureHpa: number;
}

/** Place of a point in the pattern; flat, with the scale of the start's parallel. */
export function patternPlace(point: { readonly lat: number; readonly lon: number }): PatternPlace {
  const eastNm = wrap180Deg(point.lon - START.lon) * 60 * Math.cos(radFromDeg(START.lat));
  const northNm = (point.lat - START.lat) * 60;
  const towardRad = radFromDeg(PATTERN_TOWARD_DEG_TRUE);
  return {
    alongNm: eastNm * Math.sin(towardRad) + northNm * Math.cos(towardRad),
    southOfStartDeg: START.lat - point.lat,
  };
}

/** Hour of the script that is over a place `hourH` after the start. */
export const scriptHourH = (place: PatternPlace, hourH: number): number =>
  (hourH * PATTERN_SPEED_KN - place.alongNm) / (PATTERN_SPEED_KN - BOAT_SPEED_KN);

/** The control run's weather. */
export function controlWeather(place: PatternPlace, hourH: number): PatternWeather {
  const script = scriptAt(scriptHourH(place, hourH));
  const southRatio = southRatioAt(place);
  return withLevels(script, {
    windKn: script.windKn * southRatio,
    windFromDegTrue: script.windFromDegTrue,
    seaHeightM: script.seaHeightM * southRatio,
  });
}

/** A member's weather: the control's, early or late, stronger or weaker, turned. */
export function memberWeather(place: PatternPlace, hourH: number, error: MemberError): PatternWeather {
  const onTimeH = scriptHourH(place, hourH);
  const deviates = error.timingDeviates + error.worseningDeviates * worseningShare(onTimeH);
  const script = scriptAt(onTimeH + error.timingSdH * deviates);
  const southRatio = southRatioAt(place);
  const seaHeightM = script.seaHeightM * southRatio;
  const seaErrorM = seaGrowthSdM({ seaHeightM, leadH: error.leadH }) * error.seaDeviates;
  return withLevels(script, {
    windKn: mirroredAbove(LEAST_MEMBER_WIND_KN, script.windKn * southRatio + error.windKn),
    windFromDegTrue: script.windFromDegTrue + error.directionDeg,
    seaHeightM: Math.max(LEAST_MEMBER_SEA_M, seaHeightM + seaErrorM),
  });
}

const southRatioAt = (place: PatternPlace): number => 1 + GROWTH_PER_DEG_SOUTH_RATIO * place.southOfStartDeg;

/** Written out, because it runs some ten million times and spreading objects takes three times as long. */
const withLevels = (
  script: ScriptWeather,
  level: Pick<PatternWeather, 'windKn' | 'windFromDegTrue' | 'seaHeightM'>,
): PatternWeather => ({
  windKn: level.windKn,
  windFromDegTrue: level.windFromDegTrue,
  gustKn: Math.max(level.windKn * script.gustRatio, level.windKn + LEAST_GUST_EXCESS_KN),
  seaHeightM: level.seaHeightM,
  peakPeriodS: script.peakPeriodS,
  waveFromDegTrue: script.waveFromDegTrue,
  rainMmPerH: script.rainMmPerH,
  airC: script.airC,
  pressureHpa: script.pressureHpa,
});

/** Below `least` what is missing comes back at a third of its size, so that calms do not all come out alike. */
const mirroredAbove = (least: number, value: number): number =>
  value >= least ? value : least + 0.3 * (least - value);
