/**
 * Latitudes of conformal projections on a sphere or an ellipsoid. Equation numbers: Snyder, Map Projections: A Working
 * Manual, USGS Professional Paper 1395, 1987.
 */

const QUARTER_TURN_RAD = Math.PI / 2;

/** t of (15-9): 0 at the north pole, 1 at the equator, without bound at the south pole. */
export function halfColatitudeTangent(latRad: number, eccentricityRatio: number): number {
  const part = eccentricityRatio * Math.sin(latRad);
  return Math.tan(QUARTER_TURN_RAD / 2 - latRad / 2) * ((1 + part) / (1 - part)) ** (eccentricityRatio / 2);
}

/** m of (14-15): radius of the parallel in units of the major half axis. */
export const parallelRadiusRatio = (latRad: number, eccentricityRatio: number): number =>
  Math.cos(latRad) / Math.sqrt(1 - (eccentricityRatio * Math.sin(latRad)) ** 2);

/** Each round gains a factor of e², below 0.007; ten reach the last places of a double. */
const ROUNDS = 10;

/** Latitude of a t, by (7-9). */
export function latOfHalfColatitudeTangent(tangentRatio: number, eccentricityRatio: number): number {
  let latRad = QUARTER_TURN_RAD - 2 * Math.atan(tangentRatio);
  if (eccentricityRatio === 0) return latRad;
  for (let round = 0; round < ROUNDS; round++) {
    const part = eccentricityRatio * Math.sin(latRad);
    latRad = QUARTER_TURN_RAD - 2 * Math.atan(tangentRatio * ((1 - part) / (1 + part)) ** (eccentricityRatio / 2));
  }
  return latRad;
}
