/** Section 3 of edition 2: the grid. Template 3.0 is read; the others are named. */
import type { Problem } from '../../result/index.ts';
import { gridName } from '../code-tables/template-names.ts';
import { regularLatLon } from '../grid-latlon.ts';
import type { GridDefinition, RegularLatLonGrid } from '../grid.ts';
import { damaged, type MessagePlace, tooManyPoints, tooShort, unsupported } from '../problems.ts';
import { hasOffsetRows } from '../scanning.ts';
import { octet1, octet2, octet4, type Section, signed4 } from '../section.ts';

const ALL_ONES_4 = 0xffff_ffff;
const GRID_REMEDY = 'Ask the source for this field on a regular latitude/longitude grid.';

/** Reads Section 3. */
export function readGridDefinition(place: MessagePlace, section: Section): GridDefinition | Problem {
  const short = tooShort(place, section, 14);
  if (short !== null) return short;
  const pointCount = octet4(section, 7);
  const templateNumber = octet2(section, 13);
  const tooMany = tooManyPoints(place, { section, octet: 7 }, pointCount);
  if (tooMany !== null) return tooMany;
  if (templateNumber === 0) return readLatLon(place, section, pointCount);
  const support = unsupportedGrid(place, section, templateNumber);
  return { grid: { kind: 'unsupported', templateNumber, name: gridName(2, templateNumber) }, pointCount, support };
}

function unsupportedGrid(place: MessagePlace, section: Section, templateNumber: number): Problem {
  return unsupported(place, {
    code: 'grib.grid-unsupported',
    section,
    octet: 13,
    table: 'GRIB2 code table 3.1 (grid definition template)',
    value: templateNumber,
    name: gridName(2, templateNumber),
    expected: 'template 0 (regular latitude/longitude)',
    remedy: templateNumber === 101 ? `Its points carry no coordinates here. ${GRID_REMEDY}` : GRID_REMEDY,
  });
}

function readLatLon(place: MessagePlace, section: Section, pointCount: number): GridDefinition | Problem {
  const short = tooShort(place, section, 72);
  if (short !== null) return short;
  const scanningMode = octet1(section, 72);
  const ni = octet4(section, 31);
  if (ni === ALL_ONES_4 || octet4(section, 35) === ALL_ONES_4 || octet1(section, 11) !== 0) {
    return refused(pointCount, 'quasi-regular latitude/longitude', thinnedGrid(place, section));
  }
  if (hasOffsetRows(scanningMode)) {
    return refused(pointCount, 'staggered latitude/longitude', offsetRows(place, section, scanningMode));
  }
  return layOut(place, section, { pointCount, scanningMode });
}

const refused = (pointCount: number, name: string, support: Problem): GridDefinition => ({
  grid: { kind: 'unsupported', templateNumber: 0, name },
  pointCount,
  support,
});

function layOut(
  place: MessagePlace,
  section: Section,
  read: { pointCount: number; scanningMode: number },
): GridDefinition | Problem {
  const toDeg = angleReader(section);
  const coded = {
    ni: octet4(section, 31),
    nj: octet4(section, 35),
    first: { lat: toDeg(signed4(section, 47)), lon: toDeg(signed4(section, 51)) },
    last: { lat: toDeg(signed4(section, 56)), lon: toDeg(signed4(section, 60)) },
    stored: storedIncrements(section, toDeg),
    scanningMode: read.scanningMode,
  };
  const grid = regularLatLon(coded);
  if (typeof grid === 'string') return inconsistent(place, section, grid);
  if (coded.ni * coded.nj !== read.pointCount) {
    return inconsistent(place, section, `${coded.ni} × ${coded.nj} points are not the ${read.pointCount} declared.`);
  }
  return { grid, pointCount: read.pointCount, support: null };
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
function storedIncrements(section: Section, toDeg: (coded: number) => number): RegularLatLonGrid['stored'] {
  const flags = octet1(section, 55);
  const stored = (octet: number, flag: number): number | null => {
    const coded = octet4(section, octet);
    return (flags & flag) !== 0 && coded !== ALL_ONES_4 && coded !== 0 ? toDeg(coded) : null;
  };
  return { iIncrementDeg: stored(64, 0x20), jIncrementDeg: stored(68, 0x10) };
}

const inconsistent = (place: MessagePlace, section: Section, what: string): Problem =>
  damaged(place, {
    code: 'grib.grid-inconsistent',
    section,
    octet: 31,
    what,
    expected: 'columns, rows, corners and scanning mode that agree',
  });

const thinnedGrid = (place: MessagePlace, section: Section): Problem =>
  unsupported(place, {
    code: 'grib.grid-unsupported',
    section,
    octet: 11,
    table: 'GRIB2 code table 3.11 (list of points per row)',
    value: octet1(section, 12),
    name: 'rows of different length',
    expected: 'as many points in every row',
    remedy: GRID_REMEDY,
  });

const offsetRows = (place: MessagePlace, section: Section, scanningMode: number): Problem =>
  unsupported(place, {
    code: 'grib.grid-unsupported',
    section,
    octet: 72,
    table: 'GRIB2 flag table 3.4 (scanning mode)',
    value: scanningMode,
    name: 'rows or columns shifted by half a step',
    expected: 'bits 5 to 8 zero',
    remedy: GRID_REMEDY,
  });
