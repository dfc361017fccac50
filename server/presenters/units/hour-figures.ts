import { behindForce, forceText, shownFigure, shownUnit } from './amounts.ts';
import type { ShownUnits } from './shown-units.ts';

/** What a row of hours holds, in the unit of the core, and how finely it is told. */
export interface Quantity {
  readonly unit: string;
  readonly decimals: number;
}

export const WIND: Quantity = { unit: 'kn', decimals: 0 };
export const SEA_HEIGHT: Quantity = { unit: 'm', decimals: 1 };
export const AIR: Quantity = { unit: '°C', decimals: 0 };
export const SEA_WATER: Quantity = { unit: '°C', decimals: 1 };

interface Spread {
  readonly p10: ArrayLike<number>;
  readonly p50: ArrayLike<number>;
  readonly p90: ArrayLike<number>;
}

const isKnown = (value: number | undefined): value is number => value !== undefined && !Number.isNaN(value);

/** `14`, `7.2`, or `unknown`: without unit and force. */
export const bareFigure = (value: number | undefined, of: Quantity, units: ShownUnits): string =>
  isKnown(value) ? shownFigure(value, of.unit, of, units) : 'unknown';

/** `14`, `7.2`, `Bft 4, 14`, or `unknown`: for a cell whose column names the unit. */
export const cellText = (value: number | undefined, of: Quantity, units: ShownUnits): string =>
  isKnown(value) ? behindForce(forceText(value, of.unit, units), bareFigure(value, of, units)) : 'unknown';

/** `9 (6 to 12)`, `Bft 3, 9 (6 to 12)`: median, and the middle 8 in 10; for a cell whose column names the unit. */
export function spreadCell(spread: Spread, i: number, of: Quantity, units: ShownUnits): string {
  const median = cellText(spread.p50[i], of, units);
  if (median === 'unknown') return median;
  return `${median} (${bareFigure(spread.p10[i], of, units)} to ${bareFigure(spread.p90[i], of, units)})`;
}

/** The unit at the head of a column: `kn`, `m/s`, `Bft and kn`. */
export const headUnit = ({ unit }: Quantity, units: ShownUnits): string =>
  unit === 'kn' && units.wind === 'Bft' ? 'Bft and kn' : shownUnit(unit, units);

const behindUnit = (text: string, { unit }: Quantity, units: ShownUnits): string =>
  text === 'unknown' ? text : `${text} ${shownUnit(unit, units)}`;

/** `14 kn`, `7.2 m/s`, `Bft 4, 14 kn`, or `unknown`. */
export const quantityText = (value: number | undefined, of: Quantity, units: ShownUnits): string =>
  behindUnit(cellText(value, of, units), of, units);

/** `9 (6 to 12) kn`, or `unknown`. */
export const spreadText = (spread: Spread, i: number, of: Quantity, units: ShownUnits): string =>
  behindUnit(spreadCell(spread, i, of, units), of, units);

/** `14 kn (10 to 18)`, `Bft 4, 14 kn (10 to 18)`: the unit once, behind the median. */
export const windSpan = (
  { p10, p50, p90 }: { readonly p10: number; readonly p50: number; readonly p90: number },
  units: ShownUnits,
): string => `${quantityText(p50, WIND, units)} (${bareFigure(p10, WIND, units)} to ${bareFigure(p90, WIND, units)})`;
