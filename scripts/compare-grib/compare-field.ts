/** One field of ours against the reference's. */
import { type GribField, gridPositions } from '../../lib/grib/index.ts';
import type { ReferenceField } from './eccodes.ts';

/** Differences of a field; `relative` is |a − b| / max(|a|, |b|). */
export interface FieldDifference {
  readonly isEqual: boolean;
  readonly largestAbsolute: number;
  readonly largestRelative: number;
  /** Points missing in one and present in the other, or a different number of points. */
  readonly missingMismatchCount: number;
}

/** Values agree bit for bit or to the last places of a double (the tool multiplies by 10^-D, we divide by 10^D). */
export const EQUAL_RELATIVE = 1e-12;
/** Positions agree to a millidegree, the resolution of corners in edition 1. */
export const EQUAL_POSITION_DEG = 0.001;

export function compareValues(ours: Float64Array, theirs: Float64Array): FieldDifference {
  let largestAbsolute = 0;
  let largestRelative = 0;
  let missingMismatchCount = Math.abs(ours.length - theirs.length);
  for (let i = 0; i < Math.min(ours.length, theirs.length); i++) {
    const [a, b] = [ours[i] ?? NaN, theirs[i] ?? NaN];
    if (Number.isNaN(a) !== Number.isNaN(b)) missingMismatchCount += 1;
    if (a === b || Number.isNaN(a) || Number.isNaN(b)) continue;
    const absolute = Math.abs(a - b);
    largestAbsolute = Math.max(largestAbsolute, absolute);
    largestRelative = Math.max(largestRelative, absolute / Math.max(Math.abs(a), Math.abs(b)));
  }
  const isEqual = missingMismatchCount === 0 && largestRelative <= EQUAL_RELATIVE;
  return { isEqual, largestAbsolute, largestRelative, missingMismatchCount };
}

/** Largest distance in latitude or longitude [degrees], or null for grids without positions. */
export function largestPositionDifferenceDeg(field: GribField, theirs: ReferenceField): number | null {
  if (field.grid.kind !== 'regular-latlon') return null;
  const ours = gridPositions(field.grid);
  let largestDeg = 0;
  for (let i = 0; i < theirs.lats.length; i++) {
    const lonDeg = Math.abs((((((ours.lons[i] ?? 0) - (theirs.lons[i] ?? 0) + 180) % 360) + 360) % 360) - 180);
    largestDeg = Math.max(largestDeg, lonDeg, Math.abs((ours.lats[i] ?? 0) - (theirs.lats[i] ?? 0)));
  }
  return largestDeg;
}
