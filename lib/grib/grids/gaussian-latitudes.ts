/** Latitudes of Gaussian grids: arcsines of the roots of the Legendre polynomial of degree 2N. */
import { degFromRad } from '../../units/index.ts';

/** Newton's method doubles the digits each time; the first guess has 4 at least. */
const MOST_ITERATIONS = 6;
/** Of the sine of a latitude; a double holds no more. */
const ERROR_BOUND = 1e-17;

/**
 * Latitude of one parallel, counted from the northernmost, 0 to 2N − 1 [degrees].
 *
 * First guess: Abramowitz and Stegun, Handbook of Mathematical Functions, 22.16.6; then Newton's method to the last
 * places of a double.
 */
export function gaussianLat(parallelCount: number, parallelIndex: number): number {
  const degreeCount = 2 * parallelCount;
  if (parallelIndex >= parallelCount) return -gaussianLat(parallelCount, degreeCount - 1 - parallelIndex);
  const guess = Math.cos((Math.PI * (4 * parallelIndex + 3)) / (4 * degreeCount + 2));
  let root = (1 - (degreeCount - 1) / (8 * degreeCount ** 3)) * guess;
  for (let round = 0; round < MOST_ITERATIONS; round++) {
    const step = newtonStep(degreeCount, root);
    root -= step;
    // Newton's error after a step is step² · P″ / 2P′, at a root step² · x / (1 − x²).
    if ((step * step * root) / (1 - root * root) < ERROR_BOUND) break;
  }
  return degFromRad(Math.asin(root));
}

/** P(x) / P′(x) of the Legendre polynomial of a degree, by the three-term recurrence (22.7.10) and 22.8.5. */
function newtonStep(degreeCount: number, x: number): number {
  let [before, value] = [1, x];
  for (let k = 2; k <= degreeCount; k++) {
    const next = ((2 * k - 1) * x * value - (k - 1) * before) / k;
    before = value;
    value = next;
  }
  const slope = (degreeCount * (before - x * value)) / (1 - x * x);
  return value / slope;
}

/** Distance between neighbouring parallels, nearly the same everywhere [degrees]. */
export const gaussianSpacingDeg = (parallelCount: number): number => 180 / (2 * parallelCount + 0.5);

/** Index of the parallel nearest to a latitude, from the northernmost, 0 to 2N − 1. */
export function nearestParallelIndex(parallelCount: number, lat: number): number {
  const index = Math.round((90 - lat) / gaussianSpacingDeg(parallelCount) - 0.75);
  return Math.min(Math.max(index, 0), 2 * parallelCount - 1);
}

/** Latitudes of neighbouring parallels from south to north; `northIndex` is the northernmost's. */
export function gaussianLats(parallelCount: number, northIndex: number, rowCount: number): Float64Array {
  const lats = new Float64Array(rowCount);
  for (let row = rowCount - 1; row >= 0; row--) {
    const parallelIndex = northIndex + rowCount - 1 - row;
    // Southern parallels mirror northern ones that are there already.
    const mirrorRow = northIndex + rowCount - 1 - (2 * parallelCount - 1 - parallelIndex);
    const isMirrored = parallelIndex >= parallelCount && mirrorRow > row && mirrorRow < rowCount;
    lats[row] = isMirrored ? -(lats[mirrorRow] ?? Number.NaN) : gaussianLat(parallelCount, parallelIndex);
  }
  return lats;
}
