/** Where the grid lengths of a Lambert grid hold. */
import { radFromDeg } from '../../units/index.ts';
import type { Cone } from '../grid.ts';
import { halfColatitudeTangent, parallelRadiusRatio } from './conformal.ts';
import type { Earth } from './earth.ts';
import type { Refusal } from './grid-reading.ts';

/** Share of a step by which the two readings may differ at the far end of the grid. */
const TOLERATED_STEPS = 0.1;

/**
 * The standard says that grid lengths hold at the latitude LaD; writers in use give the latitude of the map's origin there
 * and mean lengths at the standard parallels. Where both come to the same the grid is read, else it is refused.
 */
export function scaleAmbiguity(from: {
  readonly cone: Cone;
  readonly earth: Earth;
  readonly trueLatDeg: number;
  /** Columns or rows, whichever are more. */
  readonly mostCount: number;
}): Refusal | null {
  const { coneRatio, radiusM, eccentricityRatio } = from.cone;
  const latRad = radFromDeg(from.trueLatDeg);
  // k of Snyder (15-4): scale of the map at a latitude; 1 at the standard parallels.
  const mapRadiusM = coneRatio * radiusM * halfColatitudeTangent(latRad, eccentricityRatio) ** coneRatio;
  const scale = mapRadiusM / (from.earth.semiMajorM * parallelRadiusRatio(latRad, eccentricityRatio));
  if (Math.abs(scale - 1) * from.mostCount <= TOLERATED_STEPS) return null;
  return {
    octet: 48,
    table: 'GRIB2 template 3.30 (latitude at which the grid lengths hold)',
    value: Math.round(from.trueLatDeg * 1e6),
    name: 'a latitude that is no standard parallel',
    expected: 'one of the two standard parallels',
    advice: 'Writers of such grids do not agree on what the grid lengths mean.',
  };
}
