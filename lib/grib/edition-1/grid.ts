/** Section 2 (GDS) of edition 1. */
import type { Problem } from '../../result/index.ts';
import { gridName } from '../code-tables/template-names.ts';
import type { GridDefinition } from '../grid.ts';
import { type GridReading, refuse } from '../grids/grid-reading.ts';
import { type MessagePlace, tooManyPoints, tooShort } from '../problems.ts';
import { octet1, octet2, type Section } from '../section.ts';
import { isThinnedEdition1, readGaussianEdition1, readLatLonEdition1, readRotatedEdition1 } from './grid-lat-lon.ts';
import { readLambertEdition1, readMercatorEdition1, readPolarStereographicEdition1 } from './grid-maps.ts';

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
  const hasNoCount = isThinnedEdition1(grid) || SPECTRAL_TYPES.includes(templateNumber);
  const pointCount = hasNoCount ? 0 : octet2(grid, 7) * octet2(grid, 9);
  const tooMany = tooManyPoints(place, { section: grid, octet: 7 }, pointCount);
  return tooMany ?? readType({ place, section: grid, edition: 1, templateNumber, pointCount });
}

function readType(reading: GridReading): GridDefinition | Problem {
  switch (reading.templateNumber) {
    case 0:
      return readLatLonEdition1(reading);
    case 1:
      return readMercatorEdition1(reading);
    case 3:
      return readLambertEdition1(reading);
    case 4:
      return readGaussianEdition1(reading);
    case 5:
      return readPolarStereographicEdition1(reading);
    case 10:
      return readRotatedEdition1(reading);
    default:
      return unknownType(reading);
  }
}

function unknownType(reading: GridReading): GridDefinition {
  const plainName = gridName(1, reading.templateNumber);
  const name = isThinnedEdition1(reading.section) ? `quasi-regular ${plainName}` : plainName;
  const refusal = {
    octet: 6,
    table: 'GRIB1 code table 6 (data representation type)',
    value: reading.templateNumber,
    name,
    expected: 'type 0 or 10 (latitude/longitude), 1 (Mercator), 3 (Lambert), 4 (Gaussian) or 5 (polar stereographic)',
  };
  return refuse(reading, refusal, name);
}

function catalogueGrid(place: MessagePlace, product: Section): GridDefinition {
  const gridNumber = octet1(product, 7);
  const refusal = {
    octet: 7,
    table: 'Grid catalogue of the originating centre',
    value: gridNumber,
    name: 'no grid description in the message',
    expected: 'a message with Section 2 (grid description)',
  };
  const reading: GridReading = { place, section: product, edition: 1, templateNumber: gridNumber, pointCount: 0 };
  return refuse(reading, refusal, 'a grid of the centre’s catalogue');
}
