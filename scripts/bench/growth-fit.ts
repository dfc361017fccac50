/** How a time grows with what it depends on: a power of each factor, by least squares of the logarithms. */

export interface GrowthPoint {
  /** Positive, one for each factor, in the same order everywhere. */
  readonly factors: readonly number[];
  /** Positive. */
  readonly value: number;
}

export interface GrowthFit {
  /** value ≈ scale × factor₁^exponent₁ × factor₂^exponent₂ … */
  readonly scale: number;
  readonly exponents: readonly number[];
  /** One standard error of each exponent; NaN where the points are no more than the unknowns. */
  readonly exponentSds: readonly number[];
  /** Points lie off the fit by this factor (one standard deviation of the logarithms, e to the power of it). */
  readonly scatterRatio: number;
  /** Logarithm of value over fit, point by point. */
  readonly residuals: readonly number[];
}

/**
 * Ordinary least squares (normal equations).
 *
 * @returns null where the points do not tell the factors apart: too few, or a factor never changes by itself
 */
export function fitGrowth(points: readonly GrowthPoint[]): GrowthFit | null {
  const rows = points.map(({ factors }) => [1, ...factors.map(Math.log)]);
  const logs = points.map(({ value }) => Math.log(value));
  const width = rows[0]?.length ?? 0;
  if (points.length < width) return null;
  const products = square(width, (i, j) => sum(rows.map((row) => at(row, i) * at(row, j))));
  const inverse = inverted(products);
  if (inverse === null) return null;
  const sides = Array.from({ length: width }, (_, i) => sum(rows.map((row, k) => at(row, i) * at(logs, k))));
  const found = inverse.map((row) => sum(row.map((value, j) => value * at(sides, j))));
  const residuals = rows.map((row, k) => at(logs, k) - sum(row.map((value, j) => value * at(found, j))));
  const variance =
    points.length === width ? Number.NaN : sum(residuals.map((residual) => residual ** 2)) / (points.length - width);
  return {
    scale: Math.exp(at(found, 0)),
    exponents: found.slice(1),
    exponentSds: inverse.slice(1).map((row, i) => Math.sqrt(variance * at(row, i + 1))),
    scatterRatio: Math.exp(Math.sqrt(variance)),
    residuals,
  };
}

const at = (values: readonly number[], i: number): number => values[i] ?? Number.NaN;
const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);
const square = (width: number, of: (i: number, j: number) => number): number[][] =>
  Array.from({ length: width }, (_, i) => Array.from({ length: width }, (__, j) => of(i, j)));

/** Below this share of the largest entry a pivot is nothing but rounding. */
const LEAST_PIVOT_SHARE = 1e-12;

/** Gauss–Jordan elimination with row pivoting; null: the matrix has no inverse. */
function inverted(matrix: readonly (readonly number[])[]): number[][] | null {
  const width = matrix.length;
  const most = Math.max(...matrix.flat().map(Math.abs));
  const rows = matrix.map((row, i) => [...row, ...Array.from({ length: width }, (_, j) => (i === j ? 1 : 0))]);
  for (let column = 0; column < width; column++) {
    const below = rows.slice(column).map((row) => Math.abs(at(row, column)));
    const pivotIndex = column + below.indexOf(Math.max(...below));
    const [pivot, replaced] = [rows[pivotIndex], rows[column]];
    if (pivot === undefined || replaced === undefined) return null;
    if (!(Math.abs(at(pivot, column)) > LEAST_PIVOT_SHARE * most)) return null;
    rows[pivotIndex] = replaced;
    const scaled = pivot.map((value) => value / at(pivot, column));
    rows[column] = scaled;
    for (const [i, row] of rows.entries())
      if (i !== column) rows[i] = row.map((value, j) => value - at(row, column) * at(scaled, j));
  }
  return rows.map((row) => row.slice(width));
}
