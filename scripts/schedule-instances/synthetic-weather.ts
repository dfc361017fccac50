/**
 * Weather for synthetic instances: travelling waves of wind, each member with its own first-order autoregressive noise that
 * grows with lead time, and a sea that follows the wind with a delay. A model of ours, for shape and not for truth.
 */
import { normalDraw } from '../sample-forecasts/random.ts';
import { type InstanceSpec, slotCountOf, slotHours } from './instance-spec.ts';

export interface SyntheticWeather {
  /** By member: `[lag * slotCount + slot]`, wind in kn and significant wave height in m. */
  readonly windKn: readonly Float64Array[];
  readonly waveM: readonly Float64Array[];
}

const MEAN_WIND_KN = 14;
/** Amplitude in kn, period in h, and hours of weather that one hour behind is worth. */
const WIND_WAVES = [
  { amplitudeKn: 6, periodH: 62, perLagH: 0.45 },
  { amplitudeKn: 3, periodH: 23, perLagH: 0.5 },
  { amplitudeKn: 1.5, periodH: 24, perLagH: 0 },
] as const;
/** Standard deviation of a member: at the start, and growth per hour of lead. */
const SPREAD_KN = 0.6;
const SPREAD_PER_H_KN = 0.055;
/** Decorrelation time of a member's error, and response time of the sea. */
const NOISE_H = 9;
const SEA_H = 7;
/** Height of a settled sea: square of the wind times this, and the swell under it. */
const WAVE_PER_KN2 = 0.0075;
const SWELL_M = 0.5;
const SWELL_CHANGE_M = 0.25;
const SWELL_PERIOD_H = 80;

export function synthesiseWeather(spec: InstanceSpec, uniform: () => number): SyntheticWeather {
  const phases = WIND_WAVES.map(() => uniform() * 2 * Math.PI);
  const swellPhase = uniform() * 2 * Math.PI;
  const members = Array.from({ length: spec.memberCount }, () => memberNoise(spec, uniform));
  const windKn = members.map((noise) => memberWind(spec, phases, noise));
  return { windKn, waveM: windKn.map((wind) => memberSea(spec, swellPhase, wind)) };
}

/** Stationary noise of unit variance along the path of the weather, one value a slot. */
function memberNoise(spec: InstanceSpec, uniform: () => number): Float64Array {
  const kept = Math.exp(-slotHours(spec) / NOISE_H);
  const fresh = Math.sqrt(1 - kept * kept);
  const noise = new Float64Array(slotCountOf(spec) + spec.lagCount);
  let value = normalDraw(uniform);
  for (let i = 0; i < noise.length; i++) {
    value = kept * value + fresh * normalDraw(uniform);
    noise[i] = value;
  }
  return noise;
}

function memberWind(spec: InstanceSpec, phases: readonly number[], noise: Float64Array): Float64Array {
  const slotCount = slotCountOf(spec);
  const hours = slotHours(spec);
  const wind = new Float64Array(spec.lagCount * slotCount);
  for (let lag = 0; lag < spec.lagCount; lag++) {
    for (let t = 0; t < slotCount; t++) {
      const waves = WIND_WAVES.map(({ amplitudeKn, periodH, perLagH }, i) => {
        const angle = (2 * Math.PI * (t + perLagH * lag) * hours) / periodH;
        return amplitudeKn * Math.sin(angle + (phases[i] ?? 0));
      });
      const meanKn = waves.reduce((sum, value) => sum + value, MEAN_WIND_KN);
      const sdKn = SPREAD_KN + SPREAD_PER_H_KN * t * hours;
      wind[lag * slotCount + t] = Math.max(1, meanKn + sdKn * (noise[t + (lag >> 1)] ?? 0));
    }
  }
  return wind;
}

function memberSea(spec: InstanceSpec, swellPhase: number, wind: Float64Array): Float64Array {
  const slotCount = slotCountOf(spec);
  const share = 1 - Math.exp(-slotHours(spec) / SEA_H);
  const sea = new Float64Array(wind.length);
  for (let lag = 0; lag < spec.lagCount; lag++) {
    let heightM = WAVE_PER_KN2 * (wind[lag * slotCount] ?? 0) ** 2 + SWELL_M;
    for (let t = 0; t < slotCount; t++) {
      const cell = lag * slotCount + t;
      const swellM = SWELL_CHANGE_M * Math.sin((2 * Math.PI * t * slotHours(spec)) / SWELL_PERIOD_H + swellPhase);
      heightM += (WAVE_PER_KN2 * (wind[cell] ?? 0) ** 2 + SWELL_M + swellM - heightM) * share;
      sea[cell] = heightM;
    }
  }
  return sea;
}
