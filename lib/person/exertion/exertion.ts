/** What work costs the body, and the rest it asks for: energy, rest after heavy work, holding still. */
import { EXERTION } from './exertion.table.ts';
import { requireNotNegative, requirePositive } from '../valid-range.ts';

/**
 * Energy an activity costs [kcal/min]: MET · 3.5 · kg / 200.
 *
 * @param of multiple of sitting still [MET, 0 or more], body [kg, above 0]; throws outside
 */
export function energyKcalPerMin({ met, bodyKg }: { met: number; bodyKg: number }): number {
  requireNotNegative({ met });
  requirePositive({ bodyKg });
  const oxygenMlPerMin = met * EXERTION.oxygenPerMet.value * bodyKg;
  return (oxygenMlPerMin / 1000) * EXERTION.kcalPerLitre.value;
}

/** What work may cost on average, and what rest costs; the defaults are those of `EXERTION`. */
export interface EnergyBalance {
  /** What the work costs. */
  readonly energyKcalPerMin: number;
  readonly limitKcalPerMin?: number;
  /** Below the limit: otherwise no rest would do. */
  readonly restKcalPerMin?: number;
}

/**
 * Rest after a spell of work [min] that brings the mean of both down to the limit: work (W − S) / (S − r). 0 when the work
 * itself stays within the limit.
 *
 * @param of spell of work [min, 0 or more] and its energies; throws outside
 * @see sources.MURRELL_1965
 */
export function restAfterWorkMin(of: EnergyBalance & { readonly workMin: number }): number {
  requireNotNegative({ workMin: of.workMin });
  const { overKcalPerMin, limitKcalPerMin, restKcalPerMin } = balanceOf(of);
  return (of.workMin * overKcalPerMin) / (limitKcalPerMin - restKcalPerMin);
}

/**
 * Rest within a time [min] that holds both work and rest: T (W − S) / (W − r). The usual form of the formula, and a trap: T
 * is not the time of work alone. Put in as that it gives too little rest; for a spell of work use `restAfterWorkMin`.
 *
 * @param of work and rest together [min, 0 or more] and the energies; throws outside
 * @see sources.MURRELL_1965
 */
export function restWithinMin(of: EnergyBalance & { readonly totalMin: number }): number {
  requireNotNegative({ totalMin: of.totalMin });
  const { overKcalPerMin, limitKcalPerMin, restKcalPerMin } = balanceOf(of);
  // W − r as (W − S) + (S − r): above 0 even when the work costs no more than rest.
  return (of.totalMin * overKcalPerMin) / (overKcalPerMin + limitKcalPerMin - restKcalPerMin);
}

function balanceOf(of: EnergyBalance): {
  overKcalPerMin: number;
  limitKcalPerMin: number;
  restKcalPerMin: number;
} {
  const limitKcalPerMin = of.limitKcalPerMin ?? EXERTION.workLimit.value;
  const restKcalPerMin = of.restKcalPerMin ?? EXERTION.rest.value;
  requireNotNegative({ energyKcalPerMin: of.energyKcalPerMin, restKcalPerMin });
  requirePositive({ limitOverRestKcalPerMin: limitKcalPerMin - restKcalPerMin });
  return { overKcalPerMin: Math.max(0, of.energyKcalPerMin - limitKcalPerMin), limitKcalPerMin, restKcalPerMin };
}

/**
 * How long a force can be held without moving [min]: −1.5 + 2.1/f − 0.6/f² + 0.1/f³ for f from 0.15 to 1. Below 0.15 null:
 * it can be held for long. Above 1 it is 0: more than there is cannot be held at all.
 *
 * @param forceShare share of the greatest force, 0 or more; throws outside
 * @see sources.BERNARD_2006
 */
export function enduranceMin(forceShare: number): number | null {
  requireNotNegative({ forceShare });
  if (forceShare < EXERTION.heldForLong.value) return null;
  if (forceShare > 1) return 0;
  const { enduranceConstant, enduranceInverse, enduranceSquare, enduranceCube } = EXERTION;
  return (
    enduranceConstant.value +
    enduranceInverse.value / forceShare +
    enduranceSquare.value / forceShare ** 2 +
    enduranceCube.value / forceShare ** 3
  );
}

/**
 * Rest after a static hold, as a ratio of the time held: 18 (t/T)^1.4 (f − 0.15)^0.5, T the endurance. 0 at 0.15 of the
 * force and below. null when the force cannot be held so long at all. The formula is quoted from memory.
 *
 * @param of share of the greatest force and time held [min], both 0 or more; throws outside
 * @see sources.ROHMERT_1973
 */
export function restAllowanceRatio({ forceShare, holdMin }: { forceShare: number; holdMin: number }): number | null {
  requireNotNegative({ holdMin });
  const longestMin = enduranceMin(forceShare);
  if (longestMin === null) return 0;
  if (holdMin > longestMin) return null;
  if (longestMin === 0) return 0;
  const timeTerm = (holdMin / longestMin) ** EXERTION.restTimePower.value;
  const forceTerm = (forceShare - EXERTION.heldForLong.value) ** EXERTION.restForcePower.value;
  return EXERTION.restScale.value * timeTerm * forceTerm;
}
