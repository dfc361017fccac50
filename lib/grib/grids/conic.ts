/** Polar stereographic and Lambert grids, made consistent. Shared by both editions. */
import type { Cone, ConicGrid, GridLengths, GridShape, LatLon } from '../grid.ts';
import { type MapPoint, onCone } from './cone.ts';
import { CORNER_TOLERANCE_DEG } from './meridian-columns.ts';
import { scansRowsNorthward, scansWestward } from './scanning.ts';

/** A grid as its section writes it, with its cone. */
export interface CodedConic extends GridShape {
  readonly kind: ConicGrid['kind'];
  readonly first: LatLon;
  readonly cone: Cone;
  readonly lengths: GridLengths;
  readonly areVectorsGridRelative: boolean;
}

/** The grid, or one sentence that says why its octets contradict one another. */
export function conicGrid(coded: CodedConic): ConicGrid | string {
  const { ni, nj, first, cone, lengths } = coded;
  if (ni < 1 || nj < 1) return `The grid has ${ni} columns and ${nj} rows.`;
  if (!(lengths.xM > 0 && lengths.yM > 0)) return `The grid lengths are ${lengths.xM} m and ${lengths.yM} m.`;
  if (!(Math.abs(first.lat) <= 90)) return `The first point lies at latitude ${first.lat}.`;
  if (!(Math.abs(first.lon) <= 360 + CORNER_TOLERANCE_DEG)) return `The first point lies at longitude ${first.lon}.`;
  if (!(Math.abs(cone.lonDeg) <= 360 + CORNER_TOLERANCE_DEG))
    return `The columns are parallel to longitude ${cone.lonDeg}.`;
  if (first.lat * Math.sign(cone.coneRatio) < -MOST_DISTANT_LAT_DEG)
    return `The first point lies at latitude ${first.lat}, where the map does not reach.`;
  return reachesBehindCone(coded)
    ? 'The grid reaches across the meridian at which the cone is cut open.'
    : { ...coded };
}

/** Latitude on the far hemisphere to which a map is followed; beyond lies the pole at no finite distance. */
const MOST_DISTANT_LAT_DEG = 89;

/** South-western point of a grid and its north-eastern, in map coordinates. */
export function mapCorners({ ni, nj, first, cone, lengths, scanningMode }: CodedConic): {
  southWest: MapPoint;
  northEast: MapPoint;
} {
  const { xM, yM } = onCone(cone, first);
  const [widthM, heightM] = [(ni - 1) * lengths.xM, (nj - 1) * lengths.yM];
  const westM = scansWestward(scanningMode) ? xM - widthM : xM;
  const southM = scansRowsNorthward(scanningMode) ? yM : yM - heightM;
  return { southWest: { xM: westM, yM: southM }, northEast: { xM: westM + widthM, yM: southM + heightM } };
}

/**
 * A cone laid flat is a sector of a circle; the rest of the plane is no place on earth. The grid reaches into the rest when
 * a corner lies there, or when it crosses the ray from the apex through the middle of the rest.
 */
function reachesBehindCone(coded: CodedConic): boolean {
  const { coneRatio } = coded.cone;
  if (Math.abs(coneRatio) >= 1 - 1e-9) return false;
  const { southWest, northEast } = mapCorners(coded);
  const sign = Math.sign(coneRatio);
  const beyondApex = sign > 0 ? northEast.yM : -southWest.yM;
  if (southWest.xM <= 0 && northEast.xM >= 0 && beyondApex >= 0) return true;
  const isBehind = (xM: number, yM: number): boolean =>
    Math.abs(Math.atan2(xM, -sign * yM)) > Math.abs(coneRatio) * Math.PI;
  return [southWest.xM, northEast.xM].some((xM) => [southWest.yM, northEast.yM].some((yM) => isBehind(xM, yM)));
}
