import { restAfterHeavyMin, type Watchkeeper } from '../person/index.ts';
import type { Unit } from './problem.ts';

/** Minutes of rest a unit asks for before heavy work of another job; 0: it is not heavy. */
export function effortRestMin({ block }: Pick<Unit, 'block'>, { bodyKg }: Watchkeeper): number {
  const heavyMin = block.steps
    .filter(({ effort }) => effort === 'heavy')
    .reduce((sum, { work }) => sum + (work.leastMin + 4 * work.likelyMin + work.mostMin) / 6, 0);
  return restAfterHeavyMin({ heavyMin, bodyKg });
}

export const isHeavy = ({ block }: Pick<Unit, 'block'>): boolean =>
  block.steps.some(({ effort }) => effort === 'heavy');
