/** Section 3 of edition 2: the grid. Templates that place points on the globe are read; the others are named. */
import type { Problem } from '../../result/index.ts';
import { gridName } from '../code-tables/template-names.ts';
import type { GridDefinition } from '../grid.ts';
import { type GridReading, refuse } from '../grids/grid-reading.ts';
import { type MessagePlace, tooManyPoints, tooShort } from '../problems.ts';
import { octet2, octet4, type Section } from '../section.ts';
import { readGaussian, readLatLon, readRotated } from './grid-lat-lon.ts';
import { readLambert, readMercator, readPolarStereographic } from './grid-maps.ts';

/** Points carry no coordinates in the message. */
const UNSTRUCTURED = 101;

/** Reads Section 3. */
export function readGridDefinition(place: MessagePlace, section: Section): GridDefinition | Problem {
  const short = tooShort(place, section, 14);
  if (short !== null) return short;
  const pointCount = octet4(section, 7);
  const templateNumber = octet2(section, 13);
  const tooMany = tooManyPoints(place, { section, octet: 7 }, pointCount);
  if (tooMany !== null) return tooMany;
  return readTemplate({ place, section, edition: 2, templateNumber, pointCount });
}

function readTemplate(reading: GridReading): GridDefinition | Problem {
  switch (reading.templateNumber) {
    case 0:
      return readLatLon(reading);
    case 1:
      return readRotated(reading);
    case 10:
      return readMercator(reading);
    case 20:
      return readPolarStereographic(reading);
    case 30:
      return readLambert(reading);
    case 40:
      return readGaussian(reading);
    default:
      return unknownTemplate(reading);
  }
}

function unknownTemplate(reading: GridReading): GridDefinition {
  const { templateNumber } = reading;
  const name = gridName(2, templateNumber);
  const refusal = {
    octet: 13,
    table: 'GRIB2 code table 3.1 (grid definition template)',
    value: templateNumber,
    name,
    expected:
      'template 0, 1 (latitude/longitude), 10 (Mercator), 20 (polar stereographic), 30 (Lambert) or 40 (Gaussian)',
  };
  const isUnstructured = templateNumber === UNSTRUCTURED;
  return refuse(
    reading,
    isUnstructured ? { ...refusal, advice: 'Its points carry no coordinates here.' } : refusal,
    name,
  );
}
