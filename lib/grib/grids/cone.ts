/**
 * Lambert conformal cones and polar stereographic planes, which are cones of ratio 1. Equation numbers: Snyder, Map
 * Projections: A Working Manual, USGS Professional Paper 1395, 1987. Coordinates count from the apex, the pole, x along the
 * columns' growth and y along the meridian of the grid northward.
 */
import { degFromRad, radFromDeg, wrap180Deg } from '../../units/index.ts';
import type { Cone, LatLon } from '../grid.ts';
import { halfColatitudeTangent, latOfHalfColatitudeTangent, parallelRadiusRatio } from './conformal.ts';
import type { Earth } from './earth.ts';

/** Coordinates on the map [m]. */
export interface MapPoint {
  readonly xM: number;
  readonly yM: number;
}

/** Standard parallels of a cone, one or two, and the meridian parallel to y. */
export interface CodedCone {
  readonly latin1Deg: number;
  readonly latin2Deg: number;
  readonly lonDeg: number;
  readonly earth: Earth;
}

/** A flatter cone is no longer one: its apex is a thousand earth radii away. */
const LEAST_CONE_RATIO = 1e-3;
/** A parallel nearer to a pole makes the cone a plane, which is another template. */
const MOST_PARALLEL_DEG = 89.99;

/** Cone of two standard parallels, (15-1) to (15-3) and (15-8) to (15-10), or one sentence that says why it is none. */
export function lambertCone({ latin1Deg, latin2Deg, lonDeg, earth }: CodedCone): Cone | string {
  const parallels = `The standard parallels are ${latin1Deg}° and ${latin2Deg}°`;
  if (!(Math.abs(latin1Deg) <= MOST_PARALLEL_DEG && Math.abs(latin2Deg) <= MOST_PARALLEL_DEG))
    return `${parallels}; a cone touches the earth between the poles.`;
  const { eccentricityRatio } = earth;
  const [lat1Rad, lat2Rad] = [radFromDeg(latin1Deg), radFromDeg(latin2Deg)];
  const [m1, m2] = [lat1Rad, lat2Rad].map((latRad) => parallelRadiusRatio(latRad, eccentricityRatio));
  const [t1, t2] = [lat1Rad, lat2Rad].map((latRad) => halfColatitudeTangent(latRad, eccentricityRatio));
  if (m1 === undefined || m2 === undefined || t1 === undefined || t2 === undefined) throw new Error('two parallels');
  // The quotient of logarithms loses its digits where the parallels nearly coincide.
  const isTangent = Math.abs(latin1Deg - latin2Deg) < 1e-6;
  const coneRatio = isTangent ? Math.sin(lat1Rad) : Math.log(m1 / m2) / Math.log(t1 / t2);
  if (!(Math.abs(coneRatio) >= LEAST_CONE_RATIO)) return `${parallels}, so that the cone is a cylinder.`;
  return {
    coneRatio,
    radiusM: (earth.semiMajorM * m1) / (coneRatio * t1 ** coneRatio),
    lonDeg,
    eccentricityRatio,
  };
}

/** A stereographic plane: latitude of true scale (its sign does not count), pole, meridian parallel to y. */
export interface CodedPlane {
  readonly trueLatDeg: number;
  readonly isSouthPole: boolean;
  readonly lonDeg: number;
  readonly earth: Earth;
}

/** Stereographic plane at a pole, (21-33) and (21-34), or one sentence that says why there is none. */
export function polarPlane({ trueLatDeg, isSouthPole, lonDeg, earth }: CodedPlane): Cone | string {
  const latDeg = Math.abs(trueLatDeg);
  if (!(latDeg <= 90)) return `Grid lengths are to hold at latitude ${trueLatDeg}.`;
  const { eccentricityRatio } = earth;
  const scale =
    latDeg > MOST_PARALLEL_DEG ? scaleAtPole(eccentricityRatio) : scaleAt(radFromDeg(latDeg), eccentricityRatio);
  const radiusM = earth.semiMajorM * scale;
  return { coneRatio: isSouthPole ? -1 : 1, radiusM: isSouthPole ? -radiusM : radiusM, lonDeg, eccentricityRatio };
}

/** Distance from the pole for each t, in units of the major half axis, when lengths hold at the pole; 2 on a sphere. */
const scaleAtPole = (eccentricityRatio: number): number =>
  2 /
  Math.sqrt((1 + eccentricityRatio) ** (1 + eccentricityRatio) * (1 - eccentricityRatio) ** (1 - eccentricityRatio));

/** The same when they hold at a latitude. */
const scaleAt = (latRad: number, eccentricityRatio: number): number =>
  parallelRadiusRatio(latRad, eccentricityRatio) / halfColatitudeTangent(latRad, eccentricityRatio);

/** Map coordinates of a place, (15-1), (15-2) and (15-4), (15-7); not finite at the pole away from the apex. */
export function onCone({ coneRatio, radiusM, lonDeg, eccentricityRatio }: Cone, { lat, lon }: LatLon): MapPoint {
  const distanceM = radiusM * halfColatitudeTangent(radFromDeg(lat), eccentricityRatio) ** coneRatio;
  const turnRad = radFromDeg(coneRatio * wrap180Deg(lon - lonDeg));
  return { xM: distanceM * Math.sin(turnRad), yM: -distanceM * Math.cos(turnRad) };
}

/** Place of map coordinates, (14-10), (14-11), (14-9), (15-11); longitude in [-180, 180). */
export function offCone({ coneRatio, radiusM, lonDeg, eccentricityRatio }: Cone, { xM, yM }: MapPoint): LatLon {
  const sign = Math.sign(coneRatio);
  const turnRad = Math.atan2(sign * xM, -sign * yM);
  const tangent = (Math.hypot(xM, yM) / Math.abs(radiusM)) ** (1 / coneRatio);
  return {
    lat: degFromRad(latOfHalfColatitudeTangent(tangent, eccentricityRatio)),
    lon: wrap180Deg(lonDeg + degFromRad(turnRad) / coneRatio),
  };
}

/** Angle from true east to the direction of growing x, counterclockwise [degrees]. */
export const coneEastAngleDeg = ({ coneRatio, lonDeg }: Cone, { lon }: LatLon): number =>
  -coneRatio * wrap180Deg(lon - lonDeg);
