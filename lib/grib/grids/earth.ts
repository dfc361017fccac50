/** Shape of the earth (edition 2: code table 3.2; edition 1: code table 7, bit 2). It matters where grid lengths are given in metres. */

/** A sphere (eccentricity 0) or an ellipsoid. */
export interface Earth {
  readonly semiMajorM: number;
  readonly eccentricityRatio: number;
}

export const sphere = (radiusM: number): Earth => ({ semiMajorM: radiusM, eccentricityRatio: 0 });

/** Ellipsoid by its half axes. */
export const ellipsoid = (axes: { readonly majorM: number; readonly minorM: number }): Earth => ({
  semiMajorM: axes.majorM,
  eccentricityRatio: Math.sqrt(1 - (axes.minorM / axes.majorM) ** 2),
});

/** Edition 1, and code 0 of edition 2. */
export const STANDARD_SPHERE = sphere(6_367_470);
/** Code 2: International Astronomical Union, 1965; the ellipsoid of edition 1. */
export const IAU_1965 = ellipsoid({ majorM: 6_378_160, minorM: 6_356_775 });

/** Shapes of code table 3.2 that need no further numbers. */
export const FIXED_EARTHS: ReadonlyMap<number, Earth> = new Map([
  [0, STANDARD_SPHERE],
  [2, IAU_1965],
  // GRS80 and WGS 84 differ by a tenth of a millimetre in the minor axis.
  [4, ellipsoid({ majorM: 6_378_137, minorM: 6_356_752.314_14 })],
  [5, ellipsoid({ majorM: 6_378_137, minorM: 6_356_752.314_245 })],
  [6, sphere(6_371_229)],
  [8, sphere(6_371_200)],
  // Airy 1830.
  [9, ellipsoid({ majorM: 6_377_563.396, minorM: 6_356_256.909 })],
]);

/** Axes accepted as those of the earth [m]; a number of kilometres in the place of metres is refused. */
const LEAST_AXIS_M = 6_300_000;
const MOST_AXIS_M = 6_400_000;

/** An earth of coded axes, or null when no earth is so large or so flat. */
export function earthOfAxes({ majorM, minorM }: { readonly majorM: number; readonly minorM: number }): Earth | null {
  const isEarthly = minorM >= LEAST_AXIS_M && majorM >= minorM && majorM <= MOST_AXIS_M;
  if (!isEarthly) return null;
  return majorM === minorM ? sphere(majorM) : ellipsoid({ majorM, minorM });
}
