import type { LimitLevels } from '../../lib/planner/index.ts';
import { figureText } from './amount-texts.ts';

/** `16 kn`, no-go first, for it is the limit; then caution and ideal. */
export function levelsText(
  levels: LimitLevels | null,
  unit: string,
): { readonly figure: string; readonly rest: string } {
  if (levels === null) return { figure: 'no limit', rest: '' };
  const text = (value: number): string => figureText(value, unit);
  const rest = `no-go; caution ${text(levels.caution)}, ideal ${text(levels.ideal)}`;
  return { figure: `${text(levels.noGo)} ${unit}`, rest };
}
