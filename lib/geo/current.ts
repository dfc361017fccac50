import { degFromRad, radFromDeg, wrap360Deg } from '../units/index.ts';

/** A current: the direction it flows TOWARD (set) and its speed (drift). */
export interface Current {
  readonly setTowardDegTrue: number;
  readonly driftKn: number;
}

/** Speed in a direction, TOWARD. */
export interface Way {
  readonly towardDegTrue: number;
  readonly speedKn: number;
}

/** Course and speed made good over the ground on a heading through the water. */
export function madeGood(throughWater: Way, current: Current): Way {
  return wayOf(throughWater, { towardDegTrue: current.setTowardDegTrue, speedKn: current.driftKn });
}

/** Heading and speed through the water that make a course and speed good. */
export function throughWaterFor(overGround: Way, current: Current): Way {
  return wayOf(overGround, { towardDegTrue: current.setTowardDegTrue + 180, speedKn: current.driftKn });
}

/**
 * Heading that keeps a course in a current at a speed through the water, and the speed made good on it.
 *
 * @param sailed `speedKn` through the water; `towardDegTrue` the course to make good
 * @returns null when the current sweeps the boat off any such course, or backwards along it
 */
export function courseToSteer(
  sailed: Way,
  current: Current,
): { headingTowardDegTrue: number; madeGoodKn: number } | null {
  const asideRad = radFromDeg(current.setTowardDegTrue - sailed.towardDegTrue);
  const acrossKn = current.driftKn * Math.sin(asideRad);
  if (sailed.speedKn <= 0 || Math.abs(acrossKn) > sailed.speedKn) return null;
  const correctionRad = Math.asin(acrossKn / sailed.speedKn);
  const madeGoodKn = sailed.speedKn * Math.cos(correctionRad) + current.driftKn * Math.cos(asideRad);
  if (madeGoodKn <= 0) return null;
  return { headingTowardDegTrue: wrap360Deg(sailed.towardDegTrue - degFromRad(correctionRad)), madeGoodKn };
}

function wayOf(one: Way, other: Way): Way {
  const eastKn =
    one.speedKn * Math.sin(radFromDeg(one.towardDegTrue)) + other.speedKn * Math.sin(radFromDeg(other.towardDegTrue));
  const northKn =
    one.speedKn * Math.cos(radFromDeg(one.towardDegTrue)) + other.speedKn * Math.cos(radFromDeg(other.towardDegTrue));
  return { towardDegTrue: wrap360Deg(degFromRad(Math.atan2(eastKn, northKn))), speedKn: Math.hypot(eastKn, northKn) };
}
