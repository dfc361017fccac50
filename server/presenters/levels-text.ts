import type { LimitLevels } from '../../lib/planner/index.ts';
import { limitFigure, limitText } from './amount-texts.ts';
import type { ShownUnits } from './units/shown-units.ts';

/** `16 kn`, `Bft 4, 16 kn`, no-go first, for it is the limit; then caution and ideal. */
export function levelsText(
  levels: LimitLevels | null,
  unit: string,
  units: ShownUnits,
): { readonly figure: string; readonly rest: string } {
  if (levels === null) return { figure: 'no limit', rest: '' };
  const text = (value: number): string => limitFigure(value, unit, units);
  const rest = `no-go; caution ${text(levels.caution)}, ideal ${text(levels.ideal)}`;
  return { figure: limitText(levels.noGo, unit, units), rest };
}
