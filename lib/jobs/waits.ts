/** How long a background wait takes: counted at its P80, in the air there will be. */
import type { BackgroundWait } from './job.ts';
import { pertQuantileMin } from './pert-draw.ts';

const COUNTED_PROBABILITY = 0.8;

/** Hours, at the temperature they hold at, that four of five such waits stay within: quantile of the PERT beta distribution. */
export const waitP80H = ({ leastH, likelyH, mostH }: Pick<BackgroundWait, 'leastH' | 'likelyH' | 'mostH'>): number =>
  pertQuantileMin({ leastMin: leastH * 60, likelyMin: likelyH * 60, mostMin: mostH * 60 }, COUNTED_PROBABILITY) / 60;

/** Whether it takes longer or shorter in other air. */
export const goesByAir = ({ keptAtC, halvesPerC, floorC }: BackgroundWait): boolean =>
  keptAtC === null && (halvesPerC !== null || floorC !== null);

/**
 * Share of the wait that passes in an hour, relative to the temperature its hours hold at: 1 there, twice as much
 * `halvesPerC` warmer (source: GEL_TIME_ARTICLE, gel time halves per +10 °C), 0 below the floor.
 *
 * Air that is not known counts as air at the floor, the coldest in which it goes on; without a floor as at `atC`.
 *
 * @param airC air on deck [°C]; NaN: not known
 */
export function waitRateRatio(wait: BackgroundWait, airC: number): number {
  const { atC, halvesPerC, floorC, keptAtC } = wait;
  const standsInC = keptAtC ?? (Number.isNaN(airC) ? (floorC ?? atC) : airC);
  if (floorC !== null && standsInC < floorC) return 0;
  return halvesPerC === null ? 1 : 2 ** ((standsInC - atC) / halvesPerC);
}
