/** Templates 3.10, 3.20 and 3.30: grids on a Mercator, polar stereographic or Lambert map. */
import type { Problem } from '../../result/index.ts';
import type { Cone, GridDefinition, LatLon } from '../grid.ts';
import { lambertCone, polarPlane } from '../grids/cone.ts';
import { conicGrid } from '../grids/conic.ts';
import type { Earth } from '../grids/earth.ts';
import {
  bipolar,
  type GridReading,
  hasGridVectors,
  inconsistent,
  isRefusal,
  isSouthPoleFlag,
  offsetRows,
  type Refusal,
  refuse,
  settled,
} from '../grids/grid-reading.ts';
import { scaleAmbiguity } from '../grids/lambert-scale.ts';
import { mercatorGrid } from '../grids/mercator.ts';
import { tooShort } from '../problems.ts';
import { octet1, octet4, type Section, signed4 } from '../section.ts';
import { readEarth } from './earth-shape.ts';
import { isThinned, listOfPoints } from './grid-thinned.ts';

const ALL_ONES_4 = 0xffff_ffff;

/** Latitude, microdegrees, sign and magnitude; a longitude likewise. */
const degAt = (section: Section, octet: number): number => signed4(section, octet) / 1e6;
const placeAt = (section: Section, octet: number): LatLon => ({
  lat: degAt(section, octet),
  lon: degAt(section, octet + 4),
});
/** Grid length, millimetres to metres; null when not given. */
function lengthAt(section: Section, octet: number): number | null {
  const coded = octet4(section, octet);
  return coded === 0 || coded === ALL_ONES_4 ? null : coded / 1000;
}

/** Shape of the earth, or what stops the reading before it: length, list of points, offset rows. */
function readBefore(
  reading: GridReading,
  needs: { readonly octets: number; readonly scanningOctet: number },
): { readonly earth: Earth } | GridDefinition | Problem {
  const { place, section } = reading;
  const short = tooShort(place, section, needs.octets);
  if (short !== null) return short;
  if (isThinned(section)) return refuse(reading, listOfPoints(section));
  const offset = offsetRows(octet1(section, needs.scanningOctet), needs.scanningOctet);
  if (offset !== null) return refuse(reading, offset);
  const earth = readEarth(reading);
  if (typeof earth === 'string') return inconsistent(reading, 15, earth);
  return isRefusal(earth) ? refuse(reading, earth) : { earth };
}

const shapeAt = (section: Section, scanningOctet: number) => ({
  ni: octet4(section, 31),
  nj: octet4(section, 35),
  scanningMode: octet1(section, scanningOctet),
});

/** Template 3.10. Turned maps are refused. */
export function readMercator(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const before = readBefore(reading, { octets: 72, scanningOctet: 60 });
  if (!('earth' in before)) return before;
  const orientation = octet4(section, 61);
  if (orientation !== 0 && orientation !== ALL_ONES_4) return refuse(reading, turnedMap(orientation));
  const grid = mercatorGrid({
    ...shapeAt(section, 60),
    first: placeAt(section, 39),
    last: placeAt(section, 52),
    trueLatDeg: degAt(section, 48),
    lengths: { xM: lengthAt(section, 65), yM: lengthAt(section, 69) },
    earth: before.earth,
  });
  return settled(reading, 31, grid);
}

const turnedMap = (coded: number): Refusal => ({
  octet: 61,
  table: 'GRIB2 template 3.10 (orientation of the grid)',
  value: coded,
  name: 'columns that are not meridians',
  expected: '0',
});

/** Template 3.20. */
export function readPolarStereographic(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const before = readBefore(reading, { octets: 65, scanningOctet: 65 });
  if (!('earth' in before)) return before;
  const cone = polarPlane({
    trueLatDeg: degAt(section, 48),
    isSouthPole: isSouthPoleFlag(octet1(section, 64)),
    lonDeg: degAt(section, 52),
    earth: before.earth,
  });
  if (typeof cone === 'string') return inconsistent(reading, 48, cone);
  return bipolarOr(reading, () => onCone(reading, 'polar-stereographic', cone));
}

/** Template 3.30. */
export function readLambert(reading: GridReading): GridDefinition | Problem {
  const { section } = reading;
  const before = readBefore(reading, { octets: 81, scanningOctet: 65 });
  if (!('earth' in before)) return before;
  const cone = lambertCone({
    latin1Deg: degAt(section, 66),
    latin2Deg: degAt(section, 70),
    lonDeg: degAt(section, 52),
    earth: before.earth,
  });
  if (typeof cone === 'string') return inconsistent(reading, 66, cone);
  const ambiguity =
    turnedCone(section) ??
    scaleAmbiguity({
      cone,
      earth: before.earth,
      trueLatDeg: degAt(section, 48),
      mostCount: Math.max(octet4(section, 31), octet4(section, 35)),
    });
  if (ambiguity !== null) return refuse(reading, ambiguity);
  return bipolarOr(reading, () => onCone(reading, 'lambert', cone));
}

function bipolarOr(reading: GridReading, read: () => GridDefinition | Problem): GridDefinition | Problem {
  const refusal = bipolar(octet1(reading.section, 64), 64);
  return refusal === null ? read() : refuse(reading, refusal);
}

function onCone(reading: GridReading, kind: 'polar-stereographic' | 'lambert', cone: Cone): GridDefinition | Problem {
  const { section } = reading;
  const grid = conicGrid({
    kind,
    ...shapeAt(section, 65),
    first: placeAt(section, 39),
    cone,
    lengths: { xM: lengthAt(section, 56) ?? 0, yM: lengthAt(section, 60) ?? 0 },
    areVectorsGridRelative: hasGridVectors(octet1(section, 47)),
  });
  return settled(reading, 31, grid);
}

/** Southern pole of the projection: centres write 90° S, or zeros, or nothing; any other pole turns the sphere. */
function turnedCone(section: Section): Refusal | null {
  const coded = octet4(section, 74);
  if (coded === ALL_ONES_4 || [0, 90].includes(Math.abs(degAt(section, 74)))) return null;
  return {
    octet: 74,
    table: 'GRIB2 template 3.30 (latitude of the southern pole of projection)',
    value: coded,
    name: 'a cone about another axis than the earth’s',
    expected: '90° S, or 0',
  };
}
