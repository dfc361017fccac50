/** Templates 3.0, 3.1 and 3.40: grids of meridians and parallels, on the earth or on a turned sphere. */
import type { Problem } from '../../result/index.ts';
import type { GridCorners, GridDefinition, StoredIncrements } from '../grid.ts';
import { gaussianGrid } from '../grids/gaussian.ts';
import { type GridReading, hasGridVectors, offsetRows, refuse, settled } from '../grids/grid-reading.ts';
import { type CodedLatLon, regularLatLon, rotatedLatLon } from '../grids/regular-lat-lon.ts';
import { tooShort } from '../problems.ts';
import { ieee4, octet1, octet4, type Section, signed4 } from '../section.ts';
import { isThinned, listOfPoints, readThinned } from './grid-thinned.ts';

const ALL_ONES_4 = 0xffff_ffff;
/** Last octet of templates 3.0 and 3.40. */
const SCANNING_OCTET = 72;

/** Template 3.0. */
export function readLatLon(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, SCANNING_OCTET);
  if (short !== null) return short;
  if (isThinned(section)) return readThinned(reading, cornersOf(section));
  const offset = offsetRows(octet1(section, SCANNING_OCTET), SCANNING_OCTET);
  return offset === null ? settled(reading, 31, regularLatLon(codedLatLon(section))) : refuse(reading, offset);
}

/** Template 3.1: as 3.0, with the pole in octets 73 to 80 and the turn in 81 to 84. */
export function readRotated(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, 84);
  if (short !== null) return short;
  if (isThinned(section)) return refuse(reading, listOfPoints(section));
  const offset = offsetRows(octet1(section, SCANNING_OCTET), SCANNING_OCTET);
  if (offset !== null) return refuse(reading, offset);
  const toDeg = angleReader(section);
  const grid = rotatedLatLon(codedLatLon(section), {
    southPole: { lat: toDeg(signed4(section, 73)), lon: toDeg(signed4(section, 77)) },
    turnDeg: ieee4(section, 81),
    areVectorsGridRelative: hasGridVectors(octet1(section, 55)),
  });
  return settled(reading, 31, grid);
}

/** Template 3.40: as 3.0, with the number of parallels N in the place of the j increment. */
export function readGaussian(reading: GridReading): GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, SCANNING_OCTET);
  if (short !== null) return short;
  if (isThinned(section)) return readThinned(reading, cornersOf(section));
  const offset = offsetRows(octet1(section, SCANNING_OCTET), SCANNING_OCTET);
  if (offset !== null) return refuse(reading, offset);
  const { stored, ...coded } = codedLatLon(section);
  const storedIncrementDeg = stored.iIncrementDeg;
  return settled(reading, 31, gaussianGrid({ ...coded, storedIncrementDeg, parallelCount: octet4(section, 68) }));
}

const codedLatLon = (section: Section): CodedLatLon => ({
  ni: octet4(section, 31),
  nj: octet4(section, 35),
  ...cornersOf(section),
  stored: storedIncrements(section),
  scanningMode: octet1(section, SCANNING_OCTET),
});

function cornersOf(section: Section): GridCorners {
  const toDeg = angleReader(section);
  return {
    first: { lat: toDeg(signed4(section, 47)), lon: toDeg(signed4(section, 51)) },
    last: { lat: toDeg(signed4(section, 56)), lon: toDeg(signed4(section, 60)) },
  };
}

/** Coded whole numbers to degrees: basic angle over subdivisions; 0 or missing means microdegrees (notes to template 3.0). */
function angleReader(section: Section): (coded: number) => number {
  const basicAngle = octet4(section, 39);
  const subdivisions = octet4(section, 43);
  const isMicro = [0, ALL_ONES_4].includes(basicAngle) || [0, ALL_ONES_4].includes(subdivisions);
  // One division rounds once, so that 0.25° reads as 0.25 and not as its neighbour.
  return isMicro ? (coded) => coded / 1e6 : (coded) => (coded * basicAngle) / subdivisions;
}

/** Resolution flags (table 3.3): 0x20 i increment given, 0x10 j increment given. */
function storedIncrements(section: Section): StoredIncrements {
  const toDeg = angleReader(section);
  const flags = octet1(section, 55);
  const stored = (octet: number, flag: number): number | null => {
    const coded = octet4(section, octet);
    return (flags & flag) !== 0 && coded !== ALL_ONES_4 && coded !== 0 ? toDeg(coded) : null;
  };
  return { iIncrementDeg: stored(64, 0x20), jIncrementDeg: stored(68, 0x10) };
}
