/** Values the matrix is made of: smooth waves, noise and patches, always the same for a seed. */
import { uniformDraws } from '../sample-forecasts/random.ts';

/** Stands for a missing value; no pattern reaches it. */
export const MISSING = 9999999;

/** Least value and span of a field, and whether neighbours share their value. */
export interface ValueSpread {
  readonly least: number;
  readonly span: number;
  /** Points per side of a patch of equal values; 1: every point has noise of its own. */
  readonly patchCount: number;
}

/** Wind component [m/s], pressure [Pa], rain [kg m-2 s-1], share: small and large numbers of both signs. */
export const SPREADS: readonly ValueSpread[] = [
  { least: -20, span: 40, patchCount: 1 },
  { least: 98_000, span: 5000, patchCount: 1 },
  { least: 0, span: 3e-4, patchCount: 1 },
  { least: 0, span: 1, patchCount: 1 },
];

/** `MISSING` inside a slanting band where the field is masked. */
export function fieldValues(wanted: {
  readonly pointCount: number;
  readonly ni: number;
  readonly isMasked: boolean;
  readonly spread: ValueSpread;
  readonly seed: number;
}): Float64Array {
  const { ni, spread } = wanted;
  const draw = uniformDraws(wanted.seed);
  const noise = Float64Array.from({ length: wanted.pointCount }, draw);
  return Float64Array.from({ length: wanted.pointCount }, (_, i) => {
    const [column, row] = [i % ni, Math.floor(i / ni)];
    if (wanted.isMasked && isBehindCoast(column, row)) return MISSING;
    const { patchCount } = spread;
    const [x, y] = [column - (column % patchCount), row - (row % patchCount)];
    const wave = 0.5 + 0.25 * Math.sin(x / 6 + wanted.seed) + 0.15 * Math.cos(y / 4 - x / 11);
    return spread.least + spread.span * (wave + 0.1 * (noise[y * ni + x] ?? 0));
  });
}

const isBehindCoast = (column: number, row: number): boolean => (column + 2 * row) % 23 < 6;
