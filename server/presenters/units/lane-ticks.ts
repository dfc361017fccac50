import { cFromF, knFromMps, mFromFt } from '../../../lib/units/index.ts';
import { BEAUFORT_SCALE } from '../../../lib/weather/index.ts';
import { shownUnit, shownValue } from './amounts.ts';
import type { ShownUnits } from './shown-units.ts';

export interface LaneTick {
  /** Where it stands, in the unit of the lane's values: kn, m or °C. */
  readonly value: number;
  readonly text: string;
}

/** Unit at the name of a lane; a force has none of its own. */
export const laneUnit = (unit: string, units: ShownUnits): string =>
  unit === 'kn' && units.wind === 'Bft' ? 'Bft' : shownUnit(unit, units);

/** Lighter winds than this force have no tick but calm: they would stand in one another. */
const FIRST_FORCE = 3;
const EVERY_MPS = 5;

/** Ticks of a wind lane from 0 to `mostKn`: every 10 kn, every 5 m/s, or where a Beaufort force begins. */
export function windTicks(mostKn: number, { wind }: ShownUnits): LaneTick[] {
  if (wind === 'kn') return evenTicks({ least: 0, most: mostKn, every: 10 }, (kn) => kn);
  if (wind === 'm/s')
    return evenTicks({ least: 0, most: shownValue(mostKn, 'kn', { ...SI, wind }), every: EVERY_MPS }, knFromMps);
  return BEAUFORT_SCALE.filter(
    ({ forceNumber, leastKn }) => leastKn <= mostKn && (forceNumber === 0 || forceNumber >= FIRST_FORCE),
  ).map(({ forceNumber, leastKn }) => ({ value: leastKn, text: String(forceNumber) }));
}

const SI = { height: 'm', temperature: '°C' } as const;

/** Ticks of a lane of the sea from 0 to `mostM`. */
export function heightTicks(mostM: number, { height }: ShownUnits): LaneTick[] {
  if (height === 'm') return evenTicks({ least: 0, most: mostM, every: mostM > 3 ? 2 : 1 }, (m) => m);
  const mostFt = shownValue(mostM, 'm', { wind: 'kn', height, temperature: '°C' });
  return evenTicks({ least: 0, most: mostFt, every: mostM > 3 ? 5 : 3 }, mFromFt);
}

/** Two ticks near the ends of a lane of temperature; in °C they stand on its ends. */
export function temperatureTicks(span: { leastC: number; mostC: number }, { temperature }: ShownUnits): LaneTick[] {
  const { leastC, mostC } = span;
  if (temperature === '°C') return evenTicks({ least: leastC, most: mostC, every: mostC - leastC }, (c) => c);
  const shown = (valueC: number): number => shownValue(valueC, '°C', { wind: 'kn', height: 'm', temperature });
  const [least, most] = [Math.ceil(shown(leastC) / 5) * 5, Math.floor(shown(mostC) / 5) * 5];
  return evenTicks({ least, most, every: Math.max(5, most - least) }, cFromF);
}

/** Even steps in the shown unit, each where it stands among the lane's values. */
const evenTicks = (
  { least, most, every }: { readonly least: number; readonly most: number; readonly every: number },
  valueOf: (shown: number) => number,
): LaneTick[] =>
  Array.from({ length: Math.floor((most - least) / every) + 1 }, (_, i) => least + i * every).map((shown) => ({
    value: valueOf(shown),
    text: String(shown),
  }));
