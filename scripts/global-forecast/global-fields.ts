/** Invented weather of the whole earth on a grid of a quarter of a degree. */
import { uniformDraws } from '../sample-forecasts/random.ts';

export const COLUMN_COUNT = 1440;
export const ROW_COUNT = 721;
const POINT_COUNT = COLUMN_COUNT * ROW_COUNT;

/** Longest and shortest waves of the pattern [degrees]; below some four grid steps models hold little. */
const LONGEST_DEG = 60;
const SHORTEST_DEG = 0.9375;
/** Where the slope of the spectrum changes, some 450 km. */
const TURN_DEG = 3.75;

/**
 * Smooth noise round the globe, mean about 0, standard deviation about 1, rows from the north. The height
 * falls with the length as in the spectrum of kinetic energy of the free air: k^-3, and k^(-5/3) below some 450 km (G. D.
 * Nastrom & K. S. Gage, Journal of the Atmospheric Sciences 42, 1985; from memory).
 */
function noise(seed: number): Float64Array {
  const uniform = uniformDraws(seed);
  const sum = new Float64Array(POINT_COUNT);
  let varianceSum = 0;
  for (let lengthDeg = LONGEST_DEG; lengthDeg >= SHORTEST_DEG; lengthDeg /= 2) {
    const height = heightOf(lengthDeg);
    addOctave(sum, { lengthDeg, height, uniform });
    varianceSum += height ** 2 * OCTAVE_VARIANCE;
  }
  const factor = 1 / Math.sqrt(varianceSum);
  return sum.map((value) => value * factor);
}

/** An octave of a spectrum k^-n has the height L^((n-1)/2). */
const heightOf = (lengthDeg: number): number =>
  lengthDeg >= TURN_DEG ? lengthDeg / LONGEST_DEG : (TURN_DEG / LONGEST_DEG) * Math.cbrt(lengthDeg / TURN_DEG);

/** Of values drawn evenly from -1 to 1 and blended as below: 1/3 times the mean square of the weights in both directions. */
const OCTAVE_VARIANCE = (1 / 3) * 0.743 ** 2;

/** Values drawn at the nodes of a coarse grid, blended so that the slope is continuous. */
function addOctave(sum: Float64Array, of: { lengthDeg: number; height: number; uniform: () => number }): void {
  const { lengthDeg, height, uniform } = of;
  const [columns, rows] = [360 / lengthDeg, Math.ceil(180 / lengthDeg) + 1];
  const nodes = Float64Array.from({ length: columns * (rows + 1) }, () => height * (2 * uniform() - 1));
  const across = blends(COLUMN_COUNT, columns / COLUMN_COUNT);
  const down = blends(ROW_COUNT, 0.25 / lengthDeg);
  let index = 0;
  for (const { node: row, weight: y } of down)
    for (const { node: column, weight: x } of across) {
      const next = (column + 1) % columns;
      const north = (nodes[row * columns + column] ?? 0) * (1 - x) + (nodes[row * columns + next] ?? 0) * x;
      const south = (nodes[(row + 1) * columns + column] ?? 0) * (1 - x) + (nodes[(row + 1) * columns + next] ?? 0) * x;
      sum[index] = (sum[index] ?? 0) + north * (1 - y) + south * y;
      index += 1;
    }
}

const blends = (count: number, stepNodes: number): { node: number; weight: number }[] =>
  Array.from({ length: count }, (_, i) => {
    const node = Math.floor(i * stepNodes);
    const t = i * stepNodes - node;
    return { node, weight: t * t * (3 - 2 * t) };
  });

/** Fields of one instant: wind components and gust [m/s], significant wave height [m], missing on land. */
export interface GlobalWeather {
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly gust: Float64Array;
  readonly seaHeight: Float64Array;
}

/** Wind of some 7 m/s, gusts half as much again, seas that follow it; three tenths of the earth are land. */
export function globalWeather(seed: number): GlobalWeather {
  const [east, north, swell, land] = [noise(4 * seed), noise(4 * seed + 1), noise(4 * seed + 2), noise(3)];
  const u = east.map((value) => 6 * value);
  const v = north.map((value) => 5 * value);
  const speed = u.map((value, i) => Math.hypot(value, v[i] ?? 0));
  return {
    u,
    v,
    gust: speed.map((value, i) => 1.4 * value + 1 + Math.abs(swell[i] ?? 0)),
    seaHeight: speed.map((value, i) =>
      (land[i] ?? 0) > LAND_ABOVE_SD ? Number.NaN : Math.max(0.1, 0.8 + 0.018 * value ** 2 + 0.6 * (swell[i] ?? 0)),
    ),
  };
}

/** Standard normal quantile of 0.7. */
const LAND_ABOVE_SD = 0.5244;
