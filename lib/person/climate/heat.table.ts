import { constantsFrom, type Constant } from '../constant.ts';
import type { Effort } from '../exertion/effort.ts';

const weight = constantsFrom('ISO_7243', 'seen in a public implementation that names the standard');
const estimate = constantsFrom('WBGT_BOM', 'from memory; moderate sun and light wind');
const magnus = constantsFrom('WBGT_BOM', 'vapour pressure belonging to it, seen at second hand');
const humidex = constantsFrom('HUMIDEX_1979', 'at second hand');
const niosh = constantsFrom(
  'NIOSH_2016_106',
  'section 8.1, through a public implementation; M in watts, mean of an hour',
);
const capacity = constantsFrom('BROEDE_2018', 'as in a public implementation that names the paper');

/** Weights of the wet-bulb globe temperature. */
export const WBGT = {
  sunWetBulb: weight(0.7, 'ratio'),
  sunGlobe: weight(0.2, 'ratio'),
  sunAir: weight(0.1, 'ratio'),
  shadeWetBulb: weight(0.7, 'ratio'),
  shadeGlobe: weight(0.3, 'ratio'),
  /** Estimate from air and vapour: a T + b e + c. */
  estimateAir: estimate(0.567, 'ratio'),
  estimateVapour: estimate(0.393, '°C/hPa'),
  estimateOffset: estimate(3.94, '°C'),
  /** Vapour pressure of saturated air: a exp(b T / (c + T)). */
  vapourScale: magnus(6.105, 'hPa'),
  vapourSlope: magnus(17.27, 'ratio'),
  vapourOffset: magnus(237.7, '°C'),
} as const satisfies Readonly<Record<string, Constant>>;

/** Humidex: T + slope (e − 10); two published forms differ in the vapour pressure e and in the digits of the slope. */
export const HUMIDEX = {
  baseVapour: humidex(10, 'hPa'),
  dewPointSlope: humidex(0.5555, '°C/hPa'),
  dewPointScale: humidex(6.11, 'hPa'),
  dewPointHeat: humidex(5417.753, 'K'),
  dewPointFreezing: humidex(273.16, 'K'),
  humiditySlope: humidex(5 / 9, '°C/hPa'),
  humidityScale: humidex(6.112, 'hPa'),
  humidityPower: humidex(7.5, 'ratio'),
  humidityOffset: humidex(237.7, '°C'),
} as const satisfies Readonly<Record<string, Constant>>;

export type Discomfort = 'none' | 'some' | 'great' | 'dangerous' | 'heat-stroke';

/** From which whole degree of humidex on; coolest first, cooler is `none`. @see sources.HUMIDEX_1979 */
export const HUMIDEX_BANDS: readonly { readonly fromC: number; readonly discomfort: Discomfort }[] = [
  { fromC: 30, discomfort: 'some' },
  { fromC: 40, discomfort: 'great' },
  { fromC: 46, discomfort: 'dangerous' },
  { fromC: 54, discomfort: 'heat-stroke' },
];

/** Limits of WBGT for continuous work: intercept − slope · log10 M. */
export const HEAT_LIMITS = {
  acclimatisedIntercept: niosh(56.7, '°C'),
  acclimatisedSlope: niosh(11.5, '°C per decade of W'),
  unacclimatisedIntercept: niosh(59.9, '°C'),
  unacclimatisedSlope: niosh(14.1, '°C per decade of W'),
} as const satisfies Readonly<Record<string, Constant>>;

/** Work capacity: least + (1 − least) / (1 + (WBGT / half) ^ power). */
export const WORK_CAPACITY_LEAST: Constant = capacity(0.1, 'ratio');

/** `half`: WBGT at which capacity is half way down. */
export const WORK_CAPACITY: Readonly<Record<Effort, { readonly half: Constant; readonly power: Constant }>> = {
  light: { half: capacity(34.64, '°C'), power: capacity(22.72, 'power') },
  moderate: { half: capacity(32.93, '°C'), power: capacity(17.81, 'power') },
  heavy: { half: capacity(30.94, '°C'), power: capacity(16.64, 'power') },
};
