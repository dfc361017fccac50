/** One field of ours against the reference's. */
import { type GribField, gridPositions } from '../../lib/grib/index.ts';
import type { ReadReference, ReferenceField } from './eccodes.ts';

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

/** Bits 3 and 4 of flag table 3.4: points along meridians, every second row turned back. */
const REORDERING_BITS = 0x30;

/**
 * On maps `grib_get_data` prints the points row by row from west to east, whatever the bits 3 and 4 of the scanning mode say,
 * and puts the values into that order.
 */
const isPrintedRowByRow = ({ grid }: GribField): boolean =>
  (grid.kind === 'mercator' || grid.kind === 'lambert' || grid.kind === 'polar-stereographic') &&
  (grid.scanningMode & REORDERING_BITS) !== 0;

/** What the reference reads from the message of a field: values in the order of the file, and positions where there are any. */
export function readReferenceOf(field: GribField, message: Uint8Array, read: ReadReference): ReferenceField[] | string {
  if (field.obstacles.grid !== null) return read(message, 'values');
  const points = read(message, 'points');
  if (typeof points === 'string' || !isPrintedRowByRow(field)) return points;
  const inFileOrder = read(message, 'values');
  if (typeof inFileOrder === 'string') return inFileOrder;
  return points.map((point, i) => ({ ...point, values: inFileOrder[i]?.values ?? new Float64Array() }));
}

/** Largest distance in latitude or longitude [degrees], or null for grids without positions. */
export function largestPositionDifferenceDeg(field: GribField, theirs: ReferenceField): number | null {
  const { grid } = field;
  if (grid.kind === 'unsupported') return null;
  const rowByRow = { ...grid, scanningMode: grid.scanningMode & ~REORDERING_BITS };
  const ours = gridPositions(isPrintedRowByRow(field) ? rowByRow : grid);
  let largestDeg = 0;
  for (let i = 0; i < theirs.lats.length; i++) {
    const lonDeg = Math.abs((((((ours.lons[i] ?? 0) - (theirs.lons[i] ?? 0) + 180) % 360) + 360) % 360) - 180);
    largestDeg = Math.max(largestDeg, lonDeg, Math.abs((ours.lats[i] ?? 0) - (theirs.lats[i] ?? 0)));
  }
  return largestDeg;
}
