import { radFromDeg } from '../units/index.ts';
import type { Steering } from './handle.ts';
import {
  apparentWind,
  windFeltBy,
  windHeightRatio,
  windOverWater,
  type Velocity,
  type Wind,
} from '../weather/index.ts';

/**
 * Wind over the deck [kn] at a height, from the 10 m true wind and the boat's speed through the water.
 *
 * The wind is brought to the height first and combined with the boat's velocity then.
 */
export function deckWindKn(sailing: {
  readonly twsKn: number;
  readonly twaDeg: number;
  readonly boatSpeedKn: number;
  readonly heightM: number;
}): number {
  const twsKn = sailing.twsKn * windHeightRatio({ heightM: sailing.heightM });
  return apparentWind({ twsKn, twaDeg: sailing.twaDeg, boatSpeedKn: sailing.boatSpeedKn }).awsKn;
}

/** {@link deckWindKn} at one height, for asking many times. */
export function deckWindAt(heightM: number): (twsKn: number, steering: Steering) => number {
  const ratio = windHeightRatio({ heightM });
  return (twsKn, { twaDeg, boatSpeedKn }) => {
    const twaRad = radFromDeg(twaDeg);
    const atHeightKn = twsKn * ratio;
    const acrossKn = atHeightKn * Math.sin(twaRad);
    const aheadKn = atHeightKn * Math.cos(twaRad) + boatSpeedKn;
    // Winds are far from where squares overflow, and Math.hypot takes several times as long.
    return Math.sqrt(acrossKn * acrossKn + aheadKn * aheadKn);
  };
}

/**
 * Wind felt on board at a height, speed and direction FROM.
 *
 * Order: 10 m wind over the ground to the height, less the current, less the boat's velocity through the water
 * (drift included). The same at `instrumentHeightM` is what the instrument shows.
 *
 * @param board `velocity` through the water; `current` over the ground, none when left out
 */
export function windOnBoard(
  wind: Wind,
  board: { readonly heightM: number; readonly velocity: Velocity; readonly current?: Velocity },
): Wind {
  const atHeight = { ...wind, windKn: wind.windKn * windHeightRatio({ heightM: board.heightM }) };
  const overWater = board.current === undefined ? atHeight : windOverWater(atHeight, board.current);
  return windFeltBy(overWater, board.velocity);
}

/** True 10 m wind speed [kn] that gives a speed over the deck on one wind angle and boat speed; null when none does. */
export function trueWindForDeckKn(wanted: {
  readonly deckWindKn: number;
  readonly twaDeg: number;
  readonly boatSpeedKn: number;
  readonly heightM: number;
}): number | null {
  const twaRad = radFromDeg(wanted.twaDeg);
  // Cosine rule solved for the true wind: the larger root is the one reached by a rising wind.
  const acrossKn = wanted.boatSpeedKn * Math.sin(twaRad);
  const squaredKn = wanted.deckWindKn ** 2 - acrossKn ** 2;
  if (squaredKn < 0) return null;
  const atHeightKn = Math.sqrt(squaredKn) - wanted.boatSpeedKn * Math.cos(twaRad);
  return atHeightKn < 0 ? null : atHeightKn / windHeightRatio({ heightM: wanted.heightM });
}
