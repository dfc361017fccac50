/** Rounding happens here, and always to the unfriendly side where a limit is meant. */
import { behindForce, type FigureStyle, forceText, type Rounding, shownFigure, shownUnit } from './units/amounts.ts';
import { PLAIN_UNITS, type ShownUnits } from './units/shown-units.ts';

/** Chances in 100; 100 and 0 only where it is certain. */
export function of100(probability: number): number {
  if (probability >= 1) return 100;
  if (probability <= 0) return 0;
  return Math.min(99, Math.max(1, Math.round(probability * 100)));
}

/** `± 4`, one standard error in 100, never less than 1. */
export const plusMinus = (probabilitySd: number | null): string =>
  probabilitySd === null || probabilitySd === 0 ? '' : `± ${Math.max(1, Math.ceil(probabilitySd * 100 - 1e-9))}`;

const decimalsOf = (unit: string): number => {
  if (unit === 'ratio') return 3;
  return unit === 'min' ? 0 : 1;
};

const trimmed = (text: string): string => {
  const bare = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return bare === '-0' ? '0' : bare;
};

const withUnit = (text: string, unit: string): string => (unit === 'ratio' ? text : `${text} ${unit}`);

const figureOf = (value: number, unit: string, style: Omit<FigureStyle, 'decimals'>, units: ShownUnits): string =>
  trimmed(shownFigure(value, unit, { decimals: decimalsOf(unit), ...style }, units));

/** `14.9 kn`, to the nearest shown figure; `7.7 m/s`, `Bft 4, 14.9 kn`. */
export const amountText = (value: number, unit: string, units = PLAIN_UNITS): string =>
  behindForce(forceText(value, unit, units), withUnit(figureOf(value, unit, {}, units), shownUnit(unit, units)));

/** As amountText without force and unit. */
export const figureText = (value: number, unit: string, units = PLAIN_UNITS): string =>
  figureOf(value, unit, {}, units);

/** Which side of a limit is safe. */
export type LimitSense = 'at-most' | 'at-least';

const strict = (sense: LimitSense): Rounding => (sense === 'at-most' ? 'down' : 'up');

/** `18 kn`, `Bft 5, 18 kn`: a limit, never shown looser than it is. */
export const limitText = (value: number, unit: string, units: ShownUnits, sense: LimitSense = 'at-most'): string =>
  behindForce(
    forceText(value, unit, units, strict(sense)),
    withUnit(limitFigure(value, unit, units, sense), shownUnit(unit, units)),
  );

/** As limitText without force and unit. */
export const limitFigure = (value: number, unit: string, units: ShownUnits, sense: LimitSense = 'at-most'): string =>
  figureOf(value, unit, { rounding: strict(sense) }, units);

/** Room to a limit, rounded towards the limit: 4.19 kn of room is `4.1 kn`. It is a difference, and has no force. */
export const roomText = (room: number, unit: string, units = PLAIN_UNITS): string =>
  withUnit(figureOf(room, unit, { rounding: 'down', sense: 'difference' }, units), shownUnit(unit, units));

/** By how much a limit is broken: `3 kn`; in other units never less than it is. */
export function excessText(excess: number, unit: string, units: ShownUnits): string {
  const shown = shownUnit(unit, units);
  const rounding = shown === unit ? 'nearest' : 'up';
  return withUnit(figureOf(excess, unit, { rounding, sense: 'difference' }, units), shown);
}

/** Whole figure with its unit: `38 nm`; below 10 one decimal. */
export const aboutText = (value: number, unit: string): string =>
  withUnit(Math.abs(value) < 10 ? trimmed(value.toFixed(1)) : value.toFixed(0), unit);
