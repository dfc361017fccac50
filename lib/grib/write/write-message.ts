/** One field to one message of edition 2. */
import { wrap360Deg } from '../../units/index.ts';
import { dateOfEpochMs } from '../dates.ts';
import { dateOctets, joined, sectionOctets, signedOctets, unsigned } from './octets.ts';
import { packComplex } from './pack-complex.ts';
import { packSimple, type PackedSections } from './pack-simple.ts';
import { productSection } from './product-section.ts';
import { quantise, type Quantised } from './quantise.ts';
import type { GribMessageSpec, WrittenGrid } from './spec.ts';

/** WMO tables the codes are meant in. */
const MASTER_TABLES_VERSION = 28;
/** Code table 1.2: reference time is the start of the forecast. */
const START_OF_FORECAST = 1;
/** Code table 1.3: research products; what is written here is nobody's operational forecast. */
const RESEARCH = 2;
/** Code table 3.2: sphere of radius 6 371 229 m. */
const EARTH_SPHERE = 6;
/** Radius and two axes, each a scale factor and a value: not given, since code table 3.2 says the radius. */
const EARTH_UNSPECIFIED = Array.from({ length: 15 }, () => 0xff);
/** Flag table 3.3: both increments given; u and v are eastward and northward. */
const INCREMENTS_GIVEN = 0x30;

/**
 * Writes one field as one message of edition 2 (template 3.0; 4.0, 4.1, 4.8 or 4.11; 5.0 or 5.3). The octets depend
 * on nothing but the arguments.
 *
 * @returns the message; messages are joined to a file by putting one after another
 * @throws Error when the description contradicts itself or does not fit the octets: a mistake of the caller
 * @see WMO-No. 306, Volume I.2, FM 92-XIV GRIB
 */
export function writeGrib2Message(spec: GribMessageSpec): Uint8Array {
  const { ni, nj } = spec.grid;
  if (spec.values.length !== ni * nj) throw new Error(`${spec.values.length} values for ${ni} × ${nj} points`);
  const quantised = quantise(spec.values, spec.decimalScaleFactor);
  const packed = pack(quantised, spec.packing ?? 'smallest');
  const sections = joined([
    identificationSection(spec),
    gridSection(spec.grid),
    productSection(spec),
    packed.representation,
    bitmapSection(quantised.bitmap),
    packed.data,
  ]);
  const totalOctets = 16 + sections.length + 4;
  const indicator = [
    ...letters('GRIB'),
    0xff,
    0xff,
    ...unsigned(spec.parameter.discipline, 1),
    2,
    ...unsigned(totalOctets, 8),
  ];
  return joined([Uint8Array.from(indicator), sections, Uint8Array.from(letters('7777'))]);
}

const letters = (text: string): number[] => Array.from(text, (letter) => letter.charCodeAt(0));

function pack(quantised: Quantised, packing: 'simple' | 'complex' | 'smallest'): PackedSections {
  const simple = packSimple(quantised);
  const complex = packing === 'simple' ? null : packComplex(quantised);
  if (complex === null) return simple;
  return packing === 'complex' || sizeOctets(complex) < sizeOctets(simple) ? complex : simple;
}

const sizeOctets = ({ representation, data }: PackedSections): number => representation.length + data.length;

function identificationSection(spec: GribMessageSpec): Uint8Array {
  return sectionOctets(1, [
    ...unsigned(spec.centre ?? 0xffff, 2),
    ...unsigned(0, 2),
    MASTER_TABLES_VERSION,
    0,
    START_OF_FORECAST,
    ...dateOctets(dateOfEpochMs(spec.referenceEpochMs)),
    RESEARCH,
    typeOfData(spec),
  ]);
}

/** Code table 1.4: forecast, control forecast, perturbed forecast. */
function typeOfData({ ensemble }: GribMessageSpec): number {
  if (ensemble === undefined) return 1;
  return ensemble.typeCode <= 1 ? 3 : 4;
}

function gridSection(grid: WrittenGrid): Uint8Array {
  const { ni, nj, first, iIncrementDeg, jIncrementDeg, scanningMode } = grid;
  const lastLat = first.lat + (nj - 1) * jIncrementDeg * (scanningMode === 64 ? 1 : -1);
  if (Math.abs(lastLat) > 90 || Math.abs(first.lat) > 90) throw new Error('rows beyond a pole');
  return sectionOctets(3, [
    0,
    ...unsigned(ni * nj, 4),
    ...unsigned(0, 4),
    EARTH_SPHERE,
    ...EARTH_UNSPECIFIED,
    ...unsigned(ni, 4),
    ...unsigned(nj, 4),
    ...unsigned(0, 4),
    ...unsigned(0xffff_ffff, 4),
    ...latOctets(first.lat),
    ...lonOctets(first.lon),
    INCREMENTS_GIVEN,
    ...latOctets(lastLat),
    ...lonOctets(first.lon + (ni - 1) * iIncrementDeg),
    ...unsigned(microDeg(iIncrementDeg), 4),
    ...unsigned(microDeg(jIncrementDeg), 4),
    scanningMode,
  ]);
}

const microDeg = (angleDeg: number): number => Math.round(angleDeg * 1e6);
const latOctets = (lat: number): number[] => signedOctets(microDeg(lat), 4);
/** Longitudes are coded eastward from 0 to 360. */
const lonOctets = (lon: number): number[] => unsigned(microDeg(wrap360Deg(lon)), 4);

/** Code table 6.0: 0 a bitmap follows, 255 none. */
function bitmapSection(bitmap: Uint8Array | null): Uint8Array {
  return bitmap === null ? sectionOctets(6, [255]) : sectionOctets(6, [0, ...bitmap]);
}
