import { knFromMps, radFromDeg } from '../units/index.ts';

/** Standard gravity [m/s²], exact by definition (3rd CGPM, 1901). */
const GRAVITY = 9.80665;

/** Length and speeds of a deep-water wave of period [s]. Linear theory, L = g T² / 2π; group at half the celerity. */
export function deepWaterWave(wavePeriodS: number): { lengthM: number; celerityKn: number; groupKn: number } {
  const celerityMps = (GRAVITY * wavePeriodS) / (2 * Math.PI);
  const celerityKn = knFromMps(celerityMps);
  return { lengthM: celerityMps * wavePeriodS, celerityKn, groupKn: celerityKn / 2 };
}

/**
 * Period [s] at which the boat meets the waves, Te = T / (1 - V cos μ / c).
 *
 * @param meeting `fromAsternDeg` 0 with the waves from astern, 180 head on
 * @returns null when the boat keeps up with the waves or overtakes them (surfing)
 */
export function encounterPeriodS(meeting: {
  readonly wavePeriodS: number;
  readonly boatSpeedKn: number;
  readonly fromAsternDeg: number;
}): number | null {
  const { celerityKn } = deepWaterWave(meeting.wavePeriodS);
  const share = 1 - (meeting.boatSpeedKn * Math.cos(radFromDeg(meeting.fromAsternDeg))) / celerityKn;
  return share > 1e-9 ? meeting.wavePeriodS / share : null;
}

/**
 * The same in the rounded form of sources.IMO_1228, Te = 3 T² / (3 T + V cos α).
 *
 * @param meeting `fromAheadDeg` 0 head on, 180 with the waves from astern
 */
export function encounterPeriodByCircularS(meeting: {
  readonly wavePeriodS: number;
  readonly boatSpeedKn: number;
  readonly fromAheadDeg: number;
}): number | null {
  const { wavePeriodS, boatSpeedKn } = meeting;
  const denominatorKn = 3 * wavePeriodS + boatSpeedKn * Math.cos(radFromDeg(meeting.fromAheadDeg));
  return denominatorKn > 1e-9 ? (3 * wavePeriodS ** 2) / denominatorKn : null;
}

/** Steepness: significant height over deep-water length of the period. */
export function steepnessRatio(sea: { readonly seaHeightM: number; readonly wavePeriodS: number }): number {
  return sea.seaHeightM / deepWaterWave(sea.wavePeriodS).lengthM;
}

/** Height [m] that one wave in `oneInCount` exceeds. Rayleigh: P(H > h) = exp(-2 (h / Hs)²). */
export function rayleighHeightM(sea: { readonly seaHeightM: number; readonly oneInCount: number }): number {
  return sea.seaHeightM * Math.sqrt(Math.log(sea.oneInCount) / 2);
}

/** Probability that one wave exceeds a height. Rayleigh. */
export function exceedanceProbability(wave: { readonly heightM: number; readonly seaHeightM: number }): number {
  return Math.exp(-2 * (wave.heightM / wave.seaHeightM) ** 2);
}

/**
 * Mean height of the highest `share` of all waves over Hs (1/10: 1.27; 1: the mean of all, 0.63).
 *
 * Rayleigh: (√(ln 1/p / 2)) + √(π/8) erfc(√(ln 1/p)) / p: sources.LONGUET_HIGGINS_1952.
 */
export function meanOfHighestRatio(share: number): number {
  const root = Math.sqrt(Math.log(1 / share));
  return root / Math.SQRT2 + (Math.sqrt(Math.PI / 8) * complementaryErrorFunction(root)) / share;
}

/** Most probable highest of N waves over Hs, √(ln N / 2): sources.LONGUET_HIGGINS_1952. */
export function modalHighestRatio(waveCount: number): number {
  return Math.sqrt(Math.log(Math.max(1, waveCount)) / 2);
}

/** Highest wave to expect [m] in a sea of height and period within `durationMin`: Hs · √(ln N / 2), at least Hs. */
export function highestExpectedWaveM(sea: {
  readonly seaHeightM: number;
  readonly wavePeriodS: number;
  readonly durationMin: number;
}): number {
  const waveCount = (sea.durationMin * 60) / sea.wavePeriodS;
  return sea.seaHeightM * Math.max(1, modalHighestRatio(waveCount));
}

/** Significant height [m] of several wave systems together: energies add, Hs = √(Σ Hs²). */
export function combinedSeaHeightM(seaHeightsM: readonly number[]): number {
  return Math.hypot(...seaHeightsM);
}

/** erfc for x >= 0, |error| < 1.5e-7. Abramowitz & Stegun (1964), 7.1.26. */
function complementaryErrorFunction(x: number): number {
  const t = 1 / (1 + 0.3275911 * x);
  const poly = t * (0.254829592 + t * (-0.284496736 + t * (1.421413741 + t * (-1.453152027 + t * 1.061405429))));
  return poly * Math.exp(-x * x);
}
