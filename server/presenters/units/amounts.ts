/** Amounts of kn, m (of sea) and °C in the units a reader sees; every other unit passes through as it is. */
import { fFromC, fStepFromC, ftFromM, mpsFromKn } from '../../../lib/units/index.ts';
import { beaufort } from '../../../lib/weather/index.ts';
import type { ShownUnits } from './shown-units.ts';

/** `down` and `up` are towards the smaller and the greater figure. */
export type Rounding = 'nearest' | 'down' | 'up';

/** A scale has a zero of its own only for amounts: a difference of 1 °C is 1.8 °F, not 33.8. */
export type Sense = 'amount' | 'difference';

/** The unit a figure is followed by: `m/s` for `kn`. The figure beside a Beaufort force is in knots. */
export function shownUnit(unit: string, { wind, height, temperature }: ShownUnits): string {
  if (unit === 'kn') return wind === 'm/s' ? 'm/s' : 'kn';
  if (unit === 'm') return height;
  return unit === '°C' ? temperature : unit;
}

/** No other unit is chosen for it, and no force stands beside it. */
export const isShownAsItIs = (unit: string, units: ShownUnits): boolean =>
  shownUnit(unit, units) === unit && (unit !== 'kn' || units.wind !== 'Bft');

/** A value in the unit of `shownUnit`. */
export function shownValue(value: number, unit: string, units: ShownUnits, sense: Sense = 'amount'): number {
  const shown = shownUnit(unit, units);
  if (shown === unit) return value;
  if (shown === 'm/s') return mpsFromKn(value);
  if (shown === 'ft') return ftFromM(value);
  return sense === 'difference' ? fStepFromC(value) : fFromC(value);
}

/** A knot is half a metre a second, and limits of the sea are given in tenths of a metre: whole m/s and ft hide too much. */
const shownDecimals = (unit: string, decimals: number, units: ShownUnits): number =>
  ['m/s', 'ft'].includes(shownUnit(unit, units)) ? Math.max(1, decimals) : decimals;

/** Sums of binary fractions miss a decimal by less than this. */
const TOLERANCE = 1e-6;

/** A value to so many decimals, in the direction that is meant. */
function roundedTo(value: number, decimals: number, rounding: Rounding): number {
  const scale = 10 ** decimals;
  if (rounding === 'down') return Math.floor(value * scale + TOLERANCE) / scale;
  if (rounding === 'up') return Math.ceil(value * scale - TOLERANCE) / scale;
  return value;
}

export interface FigureStyle {
  readonly decimals: number;
  readonly rounding?: Rounding;
  readonly sense?: Sense;
}

/** A figure without its unit, with all its decimals: `7.2` for 14 kn. */
export function shownFigure(value: number, unit: string, style: FigureStyle, units: ShownUnits): string {
  const decimals = shownDecimals(unit, style.decimals, units);
  const figure = roundedTo(shownValue(value, unit, units, style.sense), decimals, style.rounding ?? 'nearest');
  return figure.toFixed(decimals).replace(/^-(0(?:\.0+)?)$/, '$1');
}

/**
 * `Bft 5`, by the knots as they are shown: whole ones, as the scale has them; empty where no force is shown.
 *
 * The scale is made for the mean wind at 10 m; for deck wind and gusts it names the force of as many knots.
 */
export function forceText(value: number, unit: string, { wind }: ShownUnits, rounding: Rounding = 'nearest'): string {
  if (wind !== 'Bft' || unit !== 'kn' || !Number.isFinite(value) || value < 0) return '';
  return `Bft ${beaufort(roundedTo(value, 0, rounding)).forceNumber}`;
}

/** A text behind its force: `Bft 5, 18 kn`. */
export const behindForce = (force: string, text: string): string => (force === '' ? text : `${force}, ${text}`);
