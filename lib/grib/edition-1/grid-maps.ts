/** Types 1, 3 and 5 of edition 1: grids on a Mercator, Lambert or polar stereographic map. */
import type { Problem } from '../../result/index.ts';
import type { Cone, GridDefinition, LatLon } from '../grid.ts';
import { lambertCone, polarPlane } from '../grids/cone.ts';
import { conicGrid } from '../grids/conic.ts';
import { IAU_1965, STANDARD_SPHERE } from '../grids/earth.ts';
import {
  bipolar,
  type GridReading,
  hasGridVectors,
  inconsistent,
  isSouthPoleFlag,
  refuse,
  settled,
} from '../grids/grid-reading.ts';
import { mercatorGrid } from '../grids/mercator.ts';
import { tooShort } from '../problems.ts';
import { octet1, octet2, octet3, type Section, signed3 } from '../section.ts';
import { isThinnedEdition1 } from './grid-lat-lon.ts';

/** Latitude at which the lengths of a polar stereographic grid hold (note to type 5). */
const POLAR_TRUE_LAT_DEG = 60;
const ALL_ONES_3 = 0xff_ffff;

/** Table 7, bit 2. */
const earthOf = (section: Section) => ((octet1(section, 17) & 0x40) === 0 ? STANDARD_SPHERE : IAU_1965);

const degAt = (section: Section, octet: number): number => signed3(section, octet) / 1000;
const placeAt = (section: Section, octet: number): LatLon => ({
  lat: degAt(section, octet),
  lon: degAt(section, octet + 3),
});

/** Grid length [m]; null when not given. */
function lengthAt(section: Section, octet: number): number | null {
  const coded = octet3(section, octet);
  return coded === 0 || coded === ALL_ONES_3 ? null : coded;
}

/** Bits 4 to 8 of the scanning mode are reserved in edition 1. */
const shapeOf = (section: Section) => ({
  ni: octet2(section, 7),
  nj: octet2(section, 9),
  scanningMode: octet1(section, 28) & 0xe0,
});

/** Length of the section, and rows of one length; null when both are there. */
function stopBefore(reading: GridReading, neededOctets: number): GridDefinition | Problem | null {
  const short = tooShort(reading.place, reading.section, neededOctets);
  if (short !== null) return short;
  if (!isThinnedEdition1(reading.section)) return null;
  return refuse(reading, {
    octet: 7,
    table: 'GRIB1 code table 6 (data representation type)',
    value: reading.templateNumber,
    name: 'rows of different length',
    expected: 'as many points in every row',
  });
}

/** Type 1. */
export function readMercatorEdition1(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const stop = stopBefore(reading, 34);
  if (stop !== null) return stop;
  const grid = mercatorGrid({
    ...shapeOf(section),
    first: placeAt(section, 11),
    last: placeAt(section, 18),
    trueLatDeg: degAt(section, 24),
    lengths: { xM: lengthAt(section, 29), yM: lengthAt(section, 32) },
    earth: earthOf(section),
  });
  return settled(reading, 7, grid);
}

/** Type 3. Grid lengths hold at the standard parallels. */
export function readLambertEdition1(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const stop = stopBefore(reading, 34);
  if (stop !== null) return stop;
  const cone = lambertCone({
    latin1Deg: degAt(section, 29),
    latin2Deg: degAt(section, 32),
    lonDeg: degAt(section, 18),
    earth: earthOf(section),
  });
  return typeof cone === 'string' ? inconsistent(reading, 29, cone) : onCone(reading, 'lambert', cone);
}

/** Type 5. */
export function readPolarStereographicEdition1(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const stop = stopBefore(reading, 28);
  if (stop !== null) return stop;
  const cone = polarPlane({
    trueLatDeg: POLAR_TRUE_LAT_DEG,
    isSouthPole: isSouthPoleFlag(octet1(section, 27)),
    lonDeg: degAt(section, 18),
    earth: earthOf(section),
  });
  return typeof cone === 'string' ? inconsistent(reading, 18, cone) : onCone(reading, 'polar-stereographic', cone);
}

function onCone(reading: GridReading, kind: 'polar-stereographic' | 'lambert', cone: Cone): GridDefinition | Problem {
  const { section } = reading;
  const refusal = bipolar(octet1(section, 27), 27);
  if (refusal !== null) return refuse(reading, refusal);
  const grid = conicGrid({
    kind,
    ...shapeOf(section),
    first: placeAt(section, 11),
    cone,
    lengths: { xM: lengthAt(section, 21) ?? 0, yM: lengthAt(section, 24) ?? 0 },
    areVectorsGridRelative: hasGridVectors(octet1(section, 17)),
  });
  return settled(reading, 7, grid);
}
