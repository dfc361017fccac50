import { degFromRad, radFromDeg, uvFromWind, windFromUv, wrap180Deg } from '../units/index.ts';

/** A velocity over the earth's surface [kn]. */
export interface Velocity {
  readonly eastKn: number;
  readonly northKn: number;
}

/** A wind: speed [kn] and the direction it blows FROM. */
export interface Wind {
  readonly windKn: number;
  readonly windFromDegTrue: number;
}

/** What rounding leaves of no wind at all [kn]. */
const CALM_KN = 1e-9;

/** Velocity of something moving TOWARD a direction. */
export function velocityToward(motion: { readonly speedKn: number; readonly towardDegTrue: number }): Velocity {
  const towardRad = radFromDeg(motion.towardDegTrue);
  return { eastKn: motion.speedKn * Math.sin(towardRad), northKn: motion.speedKn * Math.cos(towardRad) };
}

/**
 * Apparent wind from true wind and boat speed, both at the same height.
 *
 * `twaDeg` and `awaDeg` are signed, positive with the wind from starboard, 180 from astern. With no apparent wind
 * left the angle is 0 (it has no meaning). Cosine rule: apparent = true - boat velocity.
 */
export function apparentWind(sailing: {
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly boatSpeedKn: number;
}): { awsKn: number; awaDeg: number } {
  const twaRad = radFromDeg(sailing.twaDeg);
  const acrossKn = sailing.twsKn * Math.sin(twaRad);
  const aheadKn = sailing.twsKn * Math.cos(twaRad) + sailing.boatSpeedKn;
  const awsKn = Math.hypot(acrossKn, aheadKn);
  if (awsKn < CALM_KN) return { awsKn: 0, awaDeg: 0 };
  return { awsKn, awaDeg: degFromRad(Math.atan2(acrossKn, aheadKn)) };
}

/**
 * True wind from the wind felt on board, the inverse of {@link apparentWind}.
 *
 * @param felt `awaDeg` signed from the bow, positive to starboard
 */
export function trueWind(felt: {
  readonly awsKn: number;
  readonly awaDeg: number;
  readonly boatSpeedKn: number;
  readonly headingTowardDegTrue: number;
}): Wind & { twaDeg: number } {
  const awaRad = radFromDeg(felt.awaDeg);
  const acrossKn = felt.awsKn * Math.sin(awaRad);
  const aheadKn = felt.awsKn * Math.cos(awaRad) - felt.boatSpeedKn;
  const windKn = Math.hypot(acrossKn, aheadKn);
  const twaDeg = windKn < CALM_KN ? 0 : degFromRad(Math.atan2(acrossKn, aheadKn));
  return { windKn, windFromDegTrue: (((felt.headingTowardDegTrue + twaDeg) % 360) + 360) % 360, twaDeg };
}

/** Wind felt by something moving with `velocity`: both over the ground, or both through the water. */
export function windFeltBy(wind: Wind, velocity: Velocity): Wind {
  const { u, v } = uvFromWind({ speed: wind.windKn, fromDegTrue: wind.windFromDegTrue });
  const felt = windFromUv(u - velocity.eastKn, v - velocity.northKn);
  return { windKn: felt.speed, windFromDegTrue: felt.fromDegTrue };
}

/** Wind over moving water: the forecast's wind over the ground less the current. Boats sail in this one. */
export function windOverWater(wind: Wind, current: Velocity): Wind {
  return windFeltBy(wind, current);
}

/** Head wind (positive from ahead) and cross wind (positive from starboard) on a heading [kn]. */
export function windComponents(wind: Wind, headingTowardDegTrue: number): { headKn: number; crossKn: number } {
  const offBowRad = radFromDeg(wrap180Deg(wind.windFromDegTrue - headingTowardDegTrue));
  return { headKn: wind.windKn * Math.cos(offBowRad), crossKn: wind.windKn * Math.sin(offBowRad) };
}
