/** Section 2 (GDS) of edition 1. */
import type { Problem } from '../../result/index.ts';
import { gridName } from '../code-tables/template-names.ts';
import { regularLatLon } from '../grid-latlon.ts';
import type { GridDefinition, RegularLatLonGrid } from '../grid.ts';
import { damaged, type MessagePlace, tooManyPoints, tooShort, unsupported } from '../problems.ts';
import { octet1, octet2, type Section, signed3 } from '../section.ts';

const ALL_ONES_2 = 0xffff;
const GRID_REMEDY = 'Ask the source for this field on a regular latitude/longitude grid.';
/** Spherical harmonic coefficients, plain, rotated and stretched: octets 7-10 are not columns and rows. */
const SPECTRAL_TYPES = [50, 60, 70, 80];

/** Reads Section 2; without one, the grid is a number in the centre's catalogue (Section 1, octet 7) and is refused. */
export function readGridEdition1(
  place: MessagePlace,
  product: Section,
  grid: Section | null,
): GridDefinition | Problem {
  if (grid === null) return catalogueGrid(place, product);
  const short = tooShort(place, grid, 10);
  if (short !== null) return short;
  const templateNumber = octet1(grid, 6);
  const isThinned = octet2(grid, 7) === ALL_ONES_2 || octet2(grid, 9) === ALL_ONES_2;
  const pointCount = isThinned || SPECTRAL_TYPES.includes(templateNumber) ? 0 : octet2(grid, 7) * octet2(grid, 9);
  const tooMany = tooManyPoints(place, { section: grid, octet: 7 }, pointCount);
  if (tooMany !== null) return tooMany;
  if (templateNumber === 0 && !isThinned) return readLatLon(place, grid, pointCount);
  const name = isThinned ? `quasi-regular ${gridName(1, templateNumber)}` : gridName(1, templateNumber);
  return {
    grid: { kind: 'unsupported', templateNumber, name },
    pointCount,
    support: unsupported(place, {
      code: 'grib.grid-unsupported',
      section: grid,
      octet: isThinned ? 7 : 6,
      table: 'GRIB1 code table 6 (data representation type)',
      value: templateNumber,
      name,
      expected: 'type 0 (latitude/longitude) with as many points in every row',
      remedy: GRID_REMEDY,
    }),
  };
}

function catalogueGrid(place: MessagePlace, product: Section): GridDefinition {
  const gridNumber = octet1(product, 7);
  return {
    grid: { kind: 'unsupported', templateNumber: gridNumber, name: 'a grid of the centre’s catalogue' },
    pointCount: 0,
    support: unsupported(place, {
      code: 'grib.grid-unsupported',
      section: product,
      octet: 7,
      table: 'Grid catalogue of the originating centre',
      value: gridNumber,
      name: 'no grid description in the message',
      expected: 'a message with Section 2 (grid description)',
      remedy: GRID_REMEDY,
    }),
  };
}

function readLatLon(place: MessagePlace, section: Section, pointCount: number): GridDefinition | Problem {
  const short = tooShort(place, section, 28);
  if (short !== null) return short;
  const grid = regularLatLon({
    ni: octet2(section, 7),
    nj: octet2(section, 9),
    first: { lat: signed3(section, 11) / 1000, lon: signed3(section, 14) / 1000 },
    last: { lat: signed3(section, 18) / 1000, lon: signed3(section, 21) / 1000 },
    stored: storedIncrements(section),
    // Bits 4 to 8 are reserved in table 8 of edition 1.
    scanningMode: octet1(section, 28) & 0xe0,
  });
  if (typeof grid !== 'string') return { grid, pointCount, support: null };
  return damaged(place, {
    code: 'grib.grid-inconsistent',
    section,
    octet: 7,
    what: grid,
    expected: 'columns, rows, corners and scanning mode that agree',
  });
}

/** Table 7, bit 1 (0x80): increments given. */
function storedIncrements(section: Section): RegularLatLonGrid['stored'] {
  const isGiven = (octet1(section, 17) & 0x80) !== 0;
  const stored = (octet: number): number | null => {
    const coded = octet2(section, octet);
    return isGiven && coded !== ALL_ONES_2 && coded !== 0 ? coded / 1000 : null;
  };
  return { iIncrementDeg: stored(24), jIncrementDeg: stored(26) };
}
