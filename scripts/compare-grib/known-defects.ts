/** Where ecCodes 2.28 is known to be wrong or to answer another question; each with the reason. Counted apart, never as equal. */
import type { GribField } from '../../lib/grib/index.ts';
import { radFromDeg } from '../../lib/units/index.ts';
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

/** Bits 1 and 2 of flag table 3.4. */
const DIRECTIONS = 0xc0;
const NORTH_AND_EAST = 0x40;

const isMap = ({ grid }: GribField): boolean =>
  grid.kind === 'mercator' || grid.kind === 'lambert' || grid.kind === 'polar-stereographic';

const scanningModeOf = ({ grid }: GribField): number => (grid.kind === 'unsupported' ? 0 : grid.scanningMode);

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
    reason:
      'scanning mode bit 4 (every second row runs back) is ignored in the positions of regular_ll, rotated_ll and regular_gg',
    concerns: 'positions',
    applies: (field) => !isMap(field) && (scanningModeOf(field) & ALTERNATING_ROWS) !== 0,
  },
  {
    id: 'map-scan',
    reason:
      'the first point of a map is always taken as its south-western one, though the scanning mode says that rows run west or south',
    concerns: 'positions',
    applies: (field) => isMap(field) && (scanningModeOf(field) & DIRECTIONS) !== NORTH_AND_EAST,
  },
  {
    id: 'mercator-rows',
    reason: 'rows of a Mercator grid are spaced by the grid length along x where that along y is another one',
    concerns: 'positions',
    applies: ({ grid }) =>
      grid.kind === 'mercator' &&
      grid.nj > 1 &&
      grid.ni > 1 &&
      Math.abs(radFromDeg(grid.iIncrementDeg) / grid.jIncrementRad - 1) > 1e-9,
  },
  {
    id: 'southern-cone',
    reason:
      'Lambert cones about the south pole are placed in the northern hemisphere: the first point is not where it is coded',
    concerns: 'positions',
    applies: ({ grid }) => grid.kind === 'lambert' && grid.cone.coneRatio < 0,
  },
  {
    id: 'southern-plane',
    reason: 'polar maps of edition 1 about the south pole take 60° N, not 60° S, as the latitude of the grid lengths',
    concerns: 'positions',
    applies: ({ grid, edition }) => edition === 1 && grid.kind === 'polar-stereographic' && grid.cone.coneRatio < 0,
  },
  {
    id: 'turned-sphere',
    reason:
      'the angle of rotation is taken from the longitude of the south pole, not turned about the new axis (note to template 3.1)',
    concerns: 'positions',
    applies: ({ grid }) => grid.kind === 'rotated-latlon' && grid.turnDeg !== 0,
  },
  {
    id: 'stored-increment',
    reason:
      'latitudes follow the stored increment, wrong or (edition 1) rounded to a millidegree, and leave the coded corners',
    concerns: 'positions',
    applies: ({ grid }) => {
      const hasIncrements = grid.kind === 'regular-latlon' || grid.kind === 'rotated-latlon';
      if (!hasIncrements || grid.stored.jIncrementDeg === null) return false;
      const lastRowOffDeg = Math.abs(grid.stored.jIncrementDeg - grid.jIncrementDeg) * (grid.nj - 1);
      return lastRowOffDeg > EQUAL_POSITION_DEG;
    },
  },
];
