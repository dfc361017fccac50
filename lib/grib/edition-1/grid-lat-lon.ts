/** Types 0, 4 and 10 of edition 1: grids of meridians and parallels, on the earth or on a turned sphere, thinned or not. */
import type { Problem } from '../../result/index.ts';
import type { GridCorners, GridDefinition, StoredIncrements } from '../grid.ts';
import { gaussianGrid, thinnedGaussian } from '../grids/gaussian.ts';
import {
  type GridReading,
  hasGridVectors,
  inconsistent,
  type Refusal,
  refuse,
  settled,
} from '../grids/grid-reading.ts';
import { type CodedLatLon, regularLatLon, rotatedLatLon } from '../grids/regular-lat-lon.ts';
import { scansAlongMeridians } from '../grids/scanning.ts';
import { thinnedLatLon, thinnedRows } from '../grids/thinned.ts';
import { tooManyPoints, tooShort } from '../problems.ts';
import { ibm4, octet1, octet2, type Section, signed3 } from '../section.ts';

const ALL_ONES_2 = 0xffff;
const GAUSSIAN = 4;

/** Rows or columns of different length. */
export const isThinnedEdition1 = (section: Section): boolean =>
  octet2(section, 7) === ALL_ONES_2 || octet2(section, 9) === ALL_ONES_2;

/** Type 0. */
export function readLatLonEdition1(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, 28);
  if (short !== null) return short;
  return isThinnedEdition1(section) ? readThinned(reading) : settled(reading, 7, regularLatLon(codedLatLon(section)));
}

/** Type 10: as 0, with the pole in octets 33 to 38 and the turn in 39 to 42. */
export function readRotatedEdition1(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, 42);
  if (short !== null) return short;
  if (isThinnedEdition1(section)) return refuse(reading, listOfPoints(section));
  const grid = rotatedLatLon(codedLatLon(section), {
    southPole: { lat: signed3(section, 33) / 1000, lon: signed3(section, 36) / 1000 },
    turnDeg: ibm4(section, 39),
    areVectorsGridRelative: hasGridVectors(octet1(section, 17)),
  });
  return settled(reading, 7, grid);
}

/** Type 4: as 0, with the number of parallels N in the place of the j increment. */
export function readGaussianEdition1(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, 28);
  if (short !== null) return short;
  if (isThinnedEdition1(section)) return readThinned(reading);
  const { stored, ...coded } = codedLatLon(section);
  const parallelCount = octet2(section, 26);
  return settled(reading, 7, gaussianGrid({ ...coded, storedIncrementDeg: stored.iIncrementDeg, parallelCount }));
}

const codedLatLon = (section: Section): CodedLatLon => ({
  ni: octet2(section, 7),
  nj: octet2(section, 9),
  ...cornersOf(section),
  stored: storedIncrements(section),
  scanningMode: scanningModeOf(section),
});

const cornersOf = (section: Section): GridCorners => ({
  first: { lat: signed3(section, 11) / 1000, lon: signed3(section, 14) / 1000 },
  last: { lat: signed3(section, 18) / 1000, lon: signed3(section, 21) / 1000 },
});

/** Bits 4 to 8 are reserved in table 8 of edition 1. */
const scanningModeOf = (section: Section): number => octet1(section, 28) & 0xe0;

/** Table 7, bit 1 (0x80): increments given. */
function storedIncrements(section: Section): StoredIncrements {
  const isGiven = (octet1(section, 17) & 0x80) !== 0;
  const stored = (octet: number): number | null => {
    const coded = octet2(section, octet);
    return isGiven && coded !== ALL_ONES_2 && coded !== 0 ? coded / 1000 : null;
  };
  return { iIncrementDeg: stored(24), jIncrementDeg: stored(26) };
}

const listOfPoints = (section: Section): Refusal => ({
  octet: 7,
  table: 'GRIB1 code table 6 (data representation type)',
  value: octet1(section, 6),
  name: 'rows of different length',
  expected: 'as many points in every row, or a list of points per row of a latitude/longitude or Gaussian grid',
});

/** No list of vertical coordinates and of points per row: octet 5 of the section. */
const NO_LIST = 255;

/**
 * A list of points per row, two octets each, behind the vertical coordinates (octet 4: how many, octet 5: where). The
 * section does not say what the list means: points of whole circles when the longest row goes all the way round, else points
 * between the extremes. Gaussian grids of part of a circle are written in both ways and are refused.
 */
function readThinned(reading: GridReading): GridDefinition | Problem {
  const { place, section, templateNumber } = reading;
  const scanningMode = scanningModeOf(section);
  const nj = octet2(section, 9);
  const hasRows = nj !== ALL_ONES_2 && octet1(section, 5) !== NO_LIST;
  if (!hasRows || scansAlongMeridians(scanningMode)) return refuse(reading, listOfPoints(section));
  const firstOctet = octet1(section, 5) + 4 * octet1(section, 4);
  // A list that begins inside the octets of the template is none.
  if (firstOctet < 29) return inconsistent(reading, 5, `The list of points per row begins at octet ${firstOctet}.`);
  const short = tooShort(place, section, firstOctet - 1 + 2 * nj);
  if (short !== null) return short;
  const listedCounts = Array.from({ length: nj }, (_, row) => octet2(section, firstOctet + 2 * row));
  const coded = { ...cornersOf(section), scanningMode, listedCounts, pointCount: null };
  const circles = thinnedRows({ ...coded, statedMeaning: 'circles' });
  const isPart = typeof circles !== 'string' && !circles.rows.isGlobalInLon;
  if (isPart && templateNumber === GAUSSIAN) return refuse(reading, listOfPoints(section));
  const thinned = isPart ? thinnedRows({ ...coded, statedMeaning: 'extremes' }) : circles;
  if (typeof thinned === 'string') return inconsistent(reading, firstOctet, thinned);
  const { rows, pointCount } = thinned;
  const expandedCount = nj * listedCounts.reduce((most, count) => Math.max(most, count), 0);
  const tooMany = tooManyPoints(place, { section, octet: firstOctet }, Math.max(expandedCount, pointCount));
  if (tooMany !== null) return tooMany;
  const grid = templateNumber === GAUSSIAN ? thinnedGaussian(rows, octet2(section, 26)) : thinnedLatLon(rows);
  return typeof grid === 'string' ? inconsistent(reading, 7, grid) : { grid, pointCount, support: null };
}
