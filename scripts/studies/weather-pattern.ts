import type { Uniform } from './error-paths.ts';

/** Waves of weather that travel over the track: what all scenarios of a passage have in common. */
export interface WeatherPattern {
  readonly meanKn: number;
  readonly waves: readonly PatternWave[];
  readonly swellM: number;
  readonly windFromDegTrue: number;
  readonly veerDeg: number;
}

interface PatternWave {
  readonly swingKn: number;
  readonly turnRadPerH: number;
  readonly phaseRad: number;
  /** Hours a mile farther east is behind. */
  readonly laterHPerNm: number;
  /** The sea's answer: lower and later. */
  readonly feltRatio: number;
  readonly feltLaterRad: number;
}

/** The sea follows the wind as a first-order lag of so many hours. */
export const SEA_LAG_H = 6;

/** Between two numbers, each as likely. */
export const between = (uniform: Uniform, low: number, high: number): number => low + (high - low) * uniform();

export function drawPattern(uniform: Uniform): WeatherPattern {
  const wave = (swingKn: number, periodH: number, travelKn: number): PatternWave => {
    const turnRadPerH = (2 * Math.PI) / periodH;
    return {
      swingKn,
      turnRadPerH,
      phaseRad: 2 * Math.PI * uniform(),
      laterHPerNm: 1 / travelKn,
      feltRatio: 1 / Math.hypot(1, turnRadPerH * SEA_LAG_H),
      feltLaterRad: Math.atan(turnRadPerH * SEA_LAG_H),
    };
  };
  return {
    meanKn: between(uniform, 9, 14),
    waves: [
      wave(between(uniform, 3, 6), between(uniform, 45, 75), 25),
      wave(between(uniform, 1, 3), between(uniform, 17, 28), 18),
      wave(1, 24, 1000),
    ],
    swellM: between(uniform, 0.1, 0.6),
    windFromDegTrue: between(uniform, 180, 260),
    veerDeg: between(uniform, 10, 40),
  };
}

/** Undisturbed wind [kn] at an hour since the base time, `eastNm` from the start. */
export function patternWindKn(pattern: WeatherPattern, hourH: number, eastNm: number): number {
  let windKn = pattern.meanKn;
  for (const wave of pattern.waves) windKn += wave.swingKn * Math.sin(phaseAt(wave, hourH, eastNm));
  return windKn;
}

/** The wind the sea has had time to answer: every wave later and lower, as a first-order lag makes it. */
export function patternLaggedKn(pattern: WeatherPattern, hourH: number, eastNm: number): number {
  let windKn = pattern.meanKn;
  for (const wave of pattern.waves)
    windKn += wave.swingKn * wave.feltRatio * Math.sin(phaseAt(wave, hourH, eastNm) - wave.feltLaterRad);
  return windKn;
}

const phaseAt = (wave: PatternWave, hourH: number, eastNm: number): number =>
  wave.turnRadPerH * (hourH - eastNm * wave.laterHPerNm) + wave.phaseRad;
