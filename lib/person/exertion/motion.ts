/**
 * What the motion of the boat does to one who works: how often work stops to grab hold, and seasickness. All figures are
 * quoted from memory: yardsticks to set beside the sailor's own judgement, never limits.
 */
import { INTERRUPTION_RISKS, MOTION, type InterruptionRisk } from './motion.table.ts';
import { requireNotNegative, requirePositive } from '../valid-range.ts';

const S_PER_MIN = 60;

/** Motion at the place of work. */
export interface DeckMotion {
  /** Root mean square of the acceleration along the deck, gravity of the tilt included. */
  readonly alongDeckRmsMps2: number;
  /** Mean period between zero crossings upward. */
  readonly periodS: number;
  /** Way the motion throws one who stands facing ahead. */
  readonly direction: 'sideways' | 'fore-and-aft';
}

/**
 * How often a minute one who stands must stop work to keep their feet: (120/T) exp(−(μ g)² / (2 σ²)), both sides together,
 * μ 0.25 sideways and 0.17 fore and aft. 0 without motion.
 *
 * @param motion acceleration [m/s², 0 or more], period [s, above 0]; throws outside
 * @see sources.GRAHAM_1990
 */
export function interruptionsPerMin({ alongDeckRmsMps2, periodS, direction }: DeckMotion): number {
  requireNotNegative({ alongDeckRmsMps2 });
  requirePositive({ periodS });
  const tips = direction === 'sideways' ? MOTION.tipsSideways : MOTION.tipsForeAndAft;
  const sigmas = (tips.value * MOTION.gravity.value) / alongDeckRmsMps2;
  return (MOTION.chances.value / periodS) * Math.exp(-(sigmas ** 2) / 2);
}

/**
 * The level of risk that so many interruptions a minute reach; null below the lowest.
 *
 * @see sources.GRAHAM_1990
 */
export function interruptionRisk(perMin: number): InterruptionRisk | null {
  requireNotNegative({ perMin });
  return INTERRUPTION_RISKS.findLast((level) => perMin >= level.fromPerMin)?.risk ?? null;
}

/**
 * Motion sickness dose, MSDVz [m/s^1.5]: weighted vertical acceleration times √time.
 *
 * @param of root mean square [m/s², weighted for 0.1 to 0.5 Hz] and time [min], both 0 or more; throws outside
 * @see sources.ISO_2631_1
 */
export function motionDoseMps15(of: { verticalRmsMps2: number; exposureMin: number }): number {
  requireNotNegative(of);
  return of.verticalRmsMps2 * Math.sqrt(of.exposureMin * S_PER_MIN);
}

/**
 * Share of people not used to the sea who vomit at a dose, 0 … 1: a third of a percent for each m/s^1.5.
 *
 * @param doseMps15 dose [m/s^1.5, 0 or more]; throws outside
 * @see sources.ISO_2631_1
 */
export function sicknessShare(doseMps15: number): number {
  requireNotNegative({ doseMps15 });
  return Math.min(1, doseMps15 * MOTION.sickness.value);
}
