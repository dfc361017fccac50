/** Where ecCodes 2.28 is known to be wrong or to answer another question; each with the reason. Counted apart, never as equal. */
import type { GribField } from '../../lib/grib/index.ts';
import { EQUAL_POSITION_DEG } from './compare-field.ts';

export interface KnownDefect {
  readonly id: string;
  readonly reason: string;
  /** Values are not comparable; otherwise only positions are not. */
  readonly concerns: 'values' | 'positions';
  readonly applies: (field: GribField) => boolean;
}

const ALTERNATING_ROWS = 0x10;
/** Octets of Section 7 without data. */
const EMPTY_SECTION = 5;

const scanningModeOf = (field: GribField): number =>
  field.grid.kind === 'regular-latlon' ? field.grid.scanningMode : 0;

export const KNOWN_DEFECTS: readonly KnownDefect[] = [
  {
    id: 'empty-section-7',
    reason: 'template 5.2/5.3 with an empty Section 7 is a constant; ecCodes unpacks the octets after it (7777)',
    concerns: 'values',
    applies: ({ packing, location }) =>
      (packing.templateNumber === 2 || packing.templateNumber === 3) && location.data.lengthOctets === EMPTY_SECTION,
  },
  {
    id: 'alternating-rows',
    reason: 'scanning mode bit 4 (every second row runs back) is ignored in the positions of regular_ll',
    concerns: 'positions',
    applies: (field) => (scanningModeOf(field) & ALTERNATING_ROWS) !== 0,
  },
  {
    id: 'stored-increment',
    reason:
      'latitudes follow the stored increment, wrong or (edition 1) rounded to a millidegree, and leave the coded corners',
    concerns: 'positions',
    applies: ({ grid }) => {
      if (grid.kind !== 'regular-latlon' || grid.stored.jIncrementDeg === null) return false;
      const lastRowOffDeg = Math.abs(grid.stored.jIncrementDeg - grid.jIncrementDeg) * (grid.nj - 1);
      return lastRowOffDeg > EQUAL_POSITION_DEG;
    },
  },
];
