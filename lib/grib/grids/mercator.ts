/** Columns and rows of a Mercator grid, made consistent. Shared by both editions. */
import { degFromRad, radFromDeg } from '../../units/index.ts';
import type { GridCorners, GridLengths, GridShape, MercatorGrid } from '../grid.ts';
import { halfColatitudeTangent, parallelRadiusRatio } from './conformal.ts';
import type { Earth } from './earth.ts';
import { CORNER_TOLERANCE_DEG, goesAllTheWayRound, impossibleCorner, lonSpanDeg } from './meridian-columns.ts';
import { rowsAgainstScan } from './regular-lat-lon.ts';

/** A grid as its section writes it; a length is null when not given. */
export interface CodedMercator extends GridShape, GridCorners {
  /** Where the grid lengths hold; its sign does not count. */
  readonly trueLatDeg: number;
  readonly lengths: { readonly [axis in keyof GridLengths]: number | null };
  readonly earth: Earth;
}

/** Rows reach this near to a pole, which lies at no finite distance. */
const MOST_LAT_DEG = 89.99;

/** Isometric latitude [rad]: the logarithm of 1/t of Snyder (15-9). */
export const isometricLatRad = (lat: number, eccentricityRatio: number): number =>
  -Math.log(halfColatitudeTangent(radFromDeg(lat), eccentricityRatio));

/**
 * The grid, or one sentence that says why its octets contradict one another.
 *
 * Unlike elsewhere the grid lengths place the points, not the last corner: real files write corners three rows off
 * beside lengths that are equal along both axes, as a Mercator map must have them. A length that is not given comes from the corners.
 */
export function mercatorGrid(coded: CodedMercator): MercatorGrid | string {
  const { ni, nj, first, last, scanningMode, lengths, earth } = coded;
  const contradiction = contradictionIn(coded);
  if (contradiction !== null) return contradiction;
  const { eccentricityRatio } = earth;
  const [firstRad, lastRad] = [first, last].map(({ lat }) => isometricLatRad(lat, eccentricityRatio));
  const spanRad = Math.abs((lastRad ?? Number.NaN) - (firstRad ?? Number.NaN));
  const spanDeg = lonSpanDeg({ ...coded, storedIncrementDeg: null });
  // One radian of longitude, and of isometric latitude, is as long as the radius of the parallel of true scale.
  const radiusM = earth.semiMajorM * parallelRadiusRatio(radFromDeg(coded.trueLatDeg), eccentricityRatio);
  const lengthRad = (lengthM: number | null): number | null => (lengthM === null ? null : lengthM / radiusM);
  const iIncrementRad = stepRadOf({
    spanRad: radFromDeg(spanDeg),
    lengthRad: lengthRad(lengths.xM),
    stepCount: ni - 1,
  });
  const jIncrementRad = stepRadOf({ spanRad, lengthRad: lengthRad(lengths.yM), stepCount: nj - 1 });
  const iIncrementDeg = iIncrementRad === null ? null : degFromRad(iIncrementRad);
  if (iIncrementDeg === null || iIncrementDeg * (ni - 1) > 360 + CORNER_TOLERANCE_DEG)
    return `${ni} columns ${lengths.xM} m apart do not lead from longitude ${first.lon} to ${last.lon}.`;
  if (jIncrementRad === null)
    return `${nj} rows ${lengths.yM} m apart do not lead from latitude ${first.lat} to ${last.lat}.`;
  const isGlobalInLon = ni > 1 && goesAllTheWayRound(ni, iIncrementDeg);
  return {
    kind: 'mercator',
    ni,
    nj,
    first,
    last,
    scanningMode,
    iIncrementDeg,
    jIncrementRad,
    isGlobalInLon,
    eccentricityRatio,
  };
}

/** Lengths and corners of real files disagree by up to a hundredth of the way; those of a few steps by half a step. */
const TOLERATED_SHARE = 0.05;

/** The step by length, or by the span between the corners where no length is given; null when both are far apart, or there is no way to go. */
function stepRadOf(along: {
  readonly spanRad: number;
  readonly lengthRad: number | null;
  readonly stepCount: number;
}): number | null {
  const { spanRad, stepCount } = along;
  if (stepCount === 0) return 0;
  const stepRad = along.lengthRad ?? spanRad / stepCount;
  const toleratedRad = stepRad * Math.max(TOLERATED_SHARE * stepCount, 0.5);
  return stepRad > 0 && Math.abs(stepRad * stepCount - spanRad) <= toleratedRad ? stepRad : null;
}

function contradictionIn(coded: CodedMercator): string | null {
  const { ni, nj, first, last, trueLatDeg } = coded;
  if (ni < 1 || nj < 1) return `The grid has ${ni} columns and ${nj} rows.`;
  if (!(Math.abs(trueLatDeg) <= MOST_LAT_DEG)) return `Grid lengths are to hold at latitude ${trueLatDeg}.`;
  for (const lat of [first.lat, last.lat]) {
    if (!(Math.abs(lat) <= MOST_LAT_DEG))
      return `A corner lies at latitude ${lat}, where a Mercator map does not reach.`;
  }
  return impossibleCorner(coded) ?? rowsAgainstScan(coded);
}
