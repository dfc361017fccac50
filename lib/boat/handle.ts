import { wrap180Deg } from '../units/index.ts';
import type { Boat, Handling } from './boat.ts';
import { boatSpeedIn, sailState } from './boat-speed.ts';
import { motionOn, steerCourse, steeredTwaDeg, type Motion, type WindOnCourse } from './sail-course.ts';

/** True when the handling exists in the sail state. */
export function isHandlingPossible(handling: Handling, sailStateId: string): boolean {
  return handling.sailStates.includes(sailStateId);
}

/**
 * How the boat moves under a handling.
 *
 * Heading along the course (beating where it must), or at the handling's angle to the true wind on the tack whose
 * heading is nearer the course. Speed is the table's × `speedRatio`, held between least and most; drift is
 * `driftRatio` × the 10 m wind, straight to leeward. Does not ask whether the handling exists in the state or
 * stands the weather: see {@link isHandlingPossible} and its limits.
 */
export function handle(boat: Boat, handling: Handling, wind: WindOnCourse & { readonly sailStateId: string }): Motion {
  const { sailStateId, twsKn } = wind;
  const speedKn = handledSpeed(boat, handling, sailStateId);
  const speedAtKn = (twaDeg: number): number => speedKn(twaDeg, twsKn);
  const driftKn = handling.driftRatio * twsKn;
  if (handling.heading.kind === 'course') {
    const motion = steerCourse(wind, sailState(boat, sailStateId).closestTwaDeg, speedAtKn);
    return driftKn === 0 ? motion : withDrift(motion, wind, driftKn);
  }
  const twaDeg = nearerTackDeg(handling.heading.twaDeg, wind);
  return motionOn(wind, { twaDeg, boatSpeedKn: speedAtKn(twaDeg), driftKn });
}

/** Speed through the water under a handling, by true wind angle and true wind. */
function handledSpeed(boat: Boat, handling: Handling, sailStateId: string): (twaDeg: number, twsKn: number) => number {
  const tableKn = handling.speedRatio === 0 ? null : boatSpeedIn(boat, sailStateId);
  return (twaDeg, twsKn) => {
    const wantedKn = tableKn === null ? 0 : handling.speedRatio * tableKn(twaDeg, twsKn);
    return Math.min(handling.speedMostKn, Math.max(handling.speedLeastKn, wantedKn));
  };
}

/** Wind angle and speed through the water: all of a motion that the wind over the deck needs. */
export interface Steering {
  readonly twaDeg: number;
  readonly boatSpeedKn: number;
}

/** The steering of {@link handle}, of one handling in one sail state, for asking many times. */
export function steeringUnder(boat: Boat, handling: Handling, sailStateId: string): (wind: WindOnCourse) => Steering {
  const speedKn = handledSpeed(boat, handling, sailStateId);
  const { heading } = handling;
  const closestTwaDeg = sailState(boat, sailStateId).closestTwaDeg;
  return (wind) => {
    const twaDeg = heading.kind === 'course' ? steeredTwaDeg(wind, closestTwaDeg) : nearerTackDeg(heading.twaDeg, wind);
    return { twaDeg, boatSpeedKn: speedKn(twaDeg, wind.twsKn) };
  };
}

/** The wind angle, signed, whose heading is nearer the course; wind from starboard when both are equally near. */
function nearerTackDeg(twaDeg: number, wind: WindOnCourse): number {
  const courseTwaDeg = wrap180Deg(wind.windFromDegTrue - wind.courseTowardDegTrue);
  return courseTwaDeg < 0 ? -Math.abs(twaDeg) : Math.abs(twaDeg);
}

function withDrift(motion: Motion, wind: WindOnCourse, driftKn: number): Motion {
  const drifting = motionOn(wind, { twaDeg: motion.twaDeg, boatSpeedKn: 0, driftKn });
  return {
    ...motion,
    velocity: {
      eastKn: motion.velocity.eastKn + drifting.velocity.eastKn,
      northKn: motion.velocity.northKn + drifting.velocity.northKn,
    },
    alongTrackKn: motion.alongTrackKn + drifting.alongTrackKn,
    offTrackKn: motion.offTrackKn + drifting.offTrackKn,
  };
}
