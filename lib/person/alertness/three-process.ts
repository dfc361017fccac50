/**
 * The three-process model of alertness: homeostatic S, circadian C, 12-hour U, sleep inertia W.
 *
 * Alertness is S + C + U; W stands beside it. Small and free of allocation: the planner calls these millions of times.
 */
import { THREE_PROCESS } from './three-process.table.ts';

const LOWER = THREE_PROCESS.lowerAsymptote.value;
const UPPER = THREE_PROCESS.upperAsymptote.value;
const AWAKE_RATE = THREE_PROCESS.awakeRate.value;
const ASLEEP_RATE = THREE_PROCESS.asleepRate.value;
const BRAKE = THREE_PROCESS.brakeLevel.value;
/** Linear recovery below the brake: 0.800849 points per hour. */
const LINEAR_RATE = ASLEEP_RATE * (BRAKE - UPPER);
const ACROPHASE = THREE_PROCESS.acrophase.value;

/** S after some hours awake, from its value at waking. */
export const awakeS = ({ s, elapsedH }: { s: number; elapsedH: number }): number =>
  LOWER + (s - LOWER) * Math.exp(AWAKE_RATE * elapsedH);

/**
 * S after some hours of sleep, from its value at falling asleep: linear up to the brake level 12.2, then exponential.
 *
 * Sleep begun above the brake level goes on exponentially from there. The published formula taken to the letter makes
 * S jump down at that moment (13 to 12.87); see {@link asleepSAsPublished}.
 */
export function asleepS({ s, elapsedH }: { s: number; elapsedH: number }): number {
  if (s >= BRAKE) return UPPER - (UPPER - s) * Math.exp(ASLEEP_RATE * elapsedH);
  const untilBrakeH = (BRAKE - s) / LINEAR_RATE;
  if (elapsedH <= untilBrakeH) return s + elapsedH * LINEAR_RATE;
  return UPPER - (UPPER - BRAKE) * Math.exp(ASLEEP_RATE * (elapsedH - untilBrakeH));
}

/** As {@link asleepS}, but to the letter of the published formula when sleep begins above 12.2: for comparison only. */
export function asleepSAsPublished({ s, elapsedH }: { s: number; elapsedH: number }): number {
  if (s < BRAKE) return asleepS({ s, elapsedH });
  const untilBrakeH = (BRAKE - s) / LINEAR_RATE;
  return UPPER - (UPPER - BRAKE) * Math.exp(ASLEEP_RATE * (elapsedH - untilBrakeH));
}

/** Circadian process C at a body-clock hour: largest at 16:48, least at 04:48. */
export const circadianC = (todH: number): number =>
  THREE_PROCESS.circadianMean.value +
  THREE_PROCESS.circadianAmplitude.value * Math.cos(((2 * Math.PI) / 24) * (todH - ACROPHASE));

/** 12-hour process U at a body-clock hour: least at 13:48 and 01:48. */
export const ultradianU = (todH: number): number =>
  THREE_PROCESS.ultradianMean.value +
  THREE_PROCESS.ultradianAmplitude.value * Math.cos(((2 * Math.PI) / 12) * (todH - ACROPHASE - 3));

/** Sleep inertia W some hours after waking (never positive); zero while asleep. */
export const inertiaW = (awakeH: number): number =>
  THREE_PROCESS.inertiaAtWaking.value * Math.exp(THREE_PROCESS.inertiaRate.value * awakeH);
