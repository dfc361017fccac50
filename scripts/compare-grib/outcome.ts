/** What came of one field: ours against the reference's. */
import { decodePacked, type GribField } from '../../lib/grib/index.ts';
import { compareValues, EQUAL_POSITION_DEG, largestPositionDifferenceDeg } from './compare-field.ts';
import type { ReferenceField } from './eccodes.ts';
import { KNOWN_DEFECTS } from './known-defects.ts';

/** What came of one field. */
export interface Outcome {
  readonly kind: 'equal' | 'differing' | 'unsupported' | 'known-defect' | 'reference-failed';
  readonly reason: string;
  readonly largestAbsolute: number;
  readonly largestRelative: number;
  readonly largestPositionDeg: number;
}

const outcome = (kind: Outcome['kind'], reason: string, figures: Partial<Outcome> = {}): Outcome => ({
  largestAbsolute: 0,
  largestRelative: 0,
  largestPositionDeg: 0,
  ...figures,
  kind,
  reason,
});

/** Values at all points, and positions where this program places the grid; known defects of the reference apart. */
export function compareField(bytes: Uint8Array, field: GribField, theirs: ReferenceField | string): Outcome {
  const { packing } = field.obstacles;
  if (packing !== null) return outcome('unsupported', packing.what);
  const ours = decodePacked(bytes, field);
  if (!ours.ok) return outcome('differing', ours.problems[0].what);
  if (typeof theirs === 'string') return outcome('reference-failed', theirs);
  const defects = KNOWN_DEFECTS.filter((defect) => defect.applies(field));
  const wrongValues = defects.find(({ concerns }) => concerns === 'values');
  if (wrongValues !== undefined) return outcome('known-defect', `${wrongValues.id}: ${wrongValues.reason}`);
  const difference = compareValues(ours.value, theirs.values);
  const largestPositionDeg = defects.length === 0 ? (largestPositionDifferenceDeg(field, theirs) ?? 0) : 0;
  const figures = { ...difference, largestPositionDeg };
  if (!difference.isEqual) {
    return outcome('differing', `values; ${difference.missingMismatchCount} points missing in one only`, figures);
  }
  if (largestPositionDeg > EQUAL_POSITION_DEG) return outcome('differing', 'positions', figures);
  const wrongPlaces = defects.find(({ concerns }) => concerns === 'positions');
  if (wrongPlaces !== undefined) {
    return outcome(
      'known-defect',
      `values equal, positions not compared: ${wrongPlaces.id}: ${wrongPlaces.reason}`,
      figures,
    );
  }
  return outcome('equal', field.support === null ? 'all' : `values only: ${field.support.what}`, figures);
}
