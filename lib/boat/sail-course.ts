import { radFromDeg, wrap180Deg, wrap360Deg } from '../units/index.ts';
import { velocityToward, type Velocity } from '../weather/index.ts';
import type { Boat } from './boat.ts';
import { boatSpeedKn, sailState } from './boat-speed.ts';

/** True wind at 10 m (less the current, where there is one) and the course wanted. */
export interface WindOnCourse {
  readonly twsKn: number;
  readonly windFromDegTrue: number;
  readonly courseTowardDegTrue: number;
}

/** How the boat moves through the water. */
export interface Motion {
  /** Where the bow points now. */
  readonly headingTowardDegTrue: number;
  /** True wind angle on that heading, signed, positive with the wind from starboard. */
  readonly twaDeg: number;
  /** Speed through the water along the heading, without drift. */
  readonly boatSpeedKn: number;
  /** Velocity now, drift included: what the wind over the deck is made of. */
  readonly velocity: Velocity;
  /** Mean speed along the wanted course; negative when the boat loses ground. */
  readonly alongTrackKn: number;
  /** Mean speed across it, positive to starboard; 0 while the course is held or beaten along. */
  readonly offTrackKn: number;
}

/**
 * Sails toward a course as well as the sail state can.
 *
 * A course closer to the wind than the state's closest angle is beaten: bow on the tack nearer the course, and made
 * good along the course v · cos(closest) / cos(angle of the course to the wind), which is what both tacks together
 * bring without leaving the track. A state that cannot sail above the beam runs off at its limit and leaves the track.
 */
export function sailCourse(boat: Boat, sailStateId: string, wind: WindOnCourse): Motion {
  const closestDeg = sailState(boat, sailStateId).closestTwaDeg;
  const speedAtKn = (twaDeg: number): number => boatSpeedKn(boat, sailStateId, { twaDeg, twsKn: wind.twsKn });
  return steerCourse(wind, closestDeg, speedAtKn);
}

/** {@link sailCourse} for any speed by true wind angle. */
export function steerCourse(wind: WindOnCourse, closestTwaDeg: number, speedAtKn: (twaDeg: number) => number): Motion {
  const courseTwaDeg = wrap180Deg(wind.windFromDegTrue - wind.courseTowardDegTrue);
  const twaDeg = steeredTwaDeg(wind, closestTwaDeg);
  const motion = motionOn(wind, { twaDeg, boatSpeedKn: speedAtKn(twaDeg) });
  if (twaDeg === courseTwaDeg || closestTwaDeg >= 90) return motion;
  const share = Math.cos(radFromDeg(closestTwaDeg)) / Math.cos(radFromDeg(courseTwaDeg));
  return { ...motion, alongTrackKn: motion.boatSpeedKn * share, offTrackKn: 0 };
}

/** Wind angle steered toward a course: the course's own, or on the tack nearer it as close as the boat sails. */
export function steeredTwaDeg(wind: WindOnCourse, closestTwaDeg: number): number {
  const courseTwaDeg = wrap180Deg(wind.windFromDegTrue - wind.courseTowardDegTrue);
  if (Math.abs(courseTwaDeg) >= closestTwaDeg) return courseTwaDeg;
  return courseTwaDeg < 0 ? -closestTwaDeg : closestTwaDeg;
}

/** Motion on one heading, given by its wind angle, with drift straight to leeward. */
export function motionOn(
  wind: WindOnCourse,
  steered: { readonly twaDeg: number; readonly boatSpeedKn: number; readonly driftKn?: number },
): Motion {
  const headingTowardDegTrue = wrap360Deg(wind.windFromDegTrue - steered.twaDeg);
  const ahead = velocityToward({ speedKn: steered.boatSpeedKn, towardDegTrue: headingTowardDegTrue });
  const drift = velocityToward({ speedKn: steered.driftKn ?? 0, towardDegTrue: wind.windFromDegTrue + 180 });
  const velocity = { eastKn: ahead.eastKn + drift.eastKn, northKn: ahead.northKn + drift.northKn };
  return {
    headingTowardDegTrue,
    twaDeg: steered.twaDeg,
    boatSpeedKn: steered.boatSpeedKn,
    velocity,
    ...onTrack(velocity, wind.courseTowardDegTrue),
  };
}

function onTrack(velocity: Velocity, courseTowardDegTrue: number): { alongTrackKn: number; offTrackKn: number } {
  const course = velocityToward({ speedKn: 1, towardDegTrue: courseTowardDegTrue });
  return {
    alongTrackKn: velocity.eastKn * course.eastKn + velocity.northKn * course.northKn,
    offTrackKn: velocity.eastKn * course.northKn - velocity.northKn * course.eastKn,
  };
}
