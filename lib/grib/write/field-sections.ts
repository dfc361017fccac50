/** The sections of one field of edition 2. */
import { wrap360Deg } from '../../units/index.ts';
import { dateOfEpochMs } from '../dates.ts';
import { dateOctets, sectionOctets, signedOctets, unsigned } from './octets.ts';
import { packComplex } from './pack-complex.ts';
import { packSimple, type PackedSections, simpleOctets } from './pack-simple.ts';
import { productSection } from './product-section.ts';
import { quantise, type Quantised } from './quantise.ts';
import type { GribMessageSpec } from './spec.ts';

/** WMO tables the codes are meant in. */
const MASTER_TABLES_VERSION = 28;
/** Code table 1.2: reference time is the start of the forecast. */
const START_OF_FORECAST = 1;
/** Code table 1.3: research products; what is written here is nobody's operational forecast. */
const RESEARCH = 2;
/** Code table 3.2: sphere of radius 6 371 229 m. */
const EARTH_SPHERE = 6;
/** That, then radius and two axes, each a scale factor and a value: not given, since code table 3.2 says the radius. */
const OUR_EARTH: readonly number[] = [EARTH_SPHERE, ...Array.from({ length: 15 }, () => 0xff)];
/** Flag table 3.3: both increments given; u and v are eastward and northward. */
const INCREMENTS_GIVEN = 0x30;

/** Sections 1 and 3 to 7 of a field; `bitmap` is null where no value is missing. */
export interface FieldSections {
  readonly identification: Uint8Array;
  readonly grid: Uint8Array;
  readonly product: Uint8Array;
  readonly representation: Uint8Array;
  readonly bitmap: Uint8Array | null;
  readonly data: Uint8Array;
}

/** The sections of a field. Throws when the description contradicts itself or does not fit the octets. */
export function fieldSections(spec: GribMessageSpec): FieldSections {
  const { ni, nj } = spec.grid;
  if (spec.values.length !== ni * nj) throw new Error(`${spec.values.length} values for ${ni} × ${nj} points`);
  const { decimalScaleFactor, binaryScaleFactor = 0 } = spec;
  const quantised = quantise(spec.values, { decimalScaleFactor, binaryScaleFactor });
  const packed = pack(quantised, spec.packing ?? 'smallest');
  return {
    identification: spec.copied?.identification ?? identificationSection(spec),
    grid: gridSection(spec),
    product: productSection(spec),
    representation: packed.representation,
    bitmap: quantised.bitmap,
    data: packed.data,
  };
}

function pack(quantised: Quantised, packing: 'simple' | 'complex' | 'smallest'): PackedSections {
  const complex = packing === 'simple' ? null : packComplex(quantised);
  if (complex === null) return packSimple(quantised);
  return packing === 'complex' || sizeOctets(complex) < simpleOctets(quantised) ? complex : packSimple(quantised);
}

const sizeOctets = ({ representation, data }: PackedSections): number => representation.length + data.length;

function identificationSection(spec: GribMessageSpec): Uint8Array {
  return sectionOctets(1, [
    ...unsigned(spec.centre ?? 0xffff, 2),
    ...unsigned(spec.subcentre ?? 0, 2),
    MASTER_TABLES_VERSION,
    0,
    START_OF_FORECAST,
    ...dateOctets(dateOfEpochMs(spec.referenceEpochMs)),
    RESEARCH,
    spec.dataTypeCode ?? typeOfData(spec),
  ]);
}

/** Code table 1.4: forecast, control forecast, perturbed forecast. */
function typeOfData({ ensemble }: GribMessageSpec): number {
  if (ensemble === undefined) return 1;
  return ensemble.typeCode <= 1 ? 3 : 4;
}

function gridSection({ grid, copied }: GribMessageSpec): Uint8Array {
  const { ni, nj, first, iIncrementDeg, jIncrementDeg, scanningMode } = grid;
  const lastLat = first.lat + (nj - 1) * jIncrementDeg * (scanningMode === 64 ? 1 : -1);
  // A rounding error of the increment may carry the last row beyond a pole.
  if (Math.abs(lastLat) > 90 + 1e-6 || Math.abs(first.lat) > 90) throw new Error('rows beyond a pole');
  return sectionOctets(3, [
    0,
    ...unsigned(ni * nj, 4),
    ...unsigned(0, 4),
    ...(copied?.earth ?? OUR_EARTH),
    ...unsigned(ni, 4),
    ...unsigned(nj, 4),
    ...unsigned(0, 4),
    ...unsigned(0xffff_ffff, 4),
    ...latOctets(first.lat),
    ...lonOctets(first.lon),
    INCREMENTS_GIVEN,
    ...latOctets(Math.min(90, Math.max(-90, lastLat))),
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
