/** Head of Section 4 (BDS) of edition 1: flags, scale, width. Grid-point values are read, in simple and second-order packing. */
import type { Problem } from '../../result/index.ts';
import { WIDEST_BITS } from '../bits.ts';
import type { Edition1Sections } from './sections.ts';
import type { Packing, PackingMethod } from '../field.ts';
import { secondOrderObstacleEdition1 } from '../packing/second-order/unpack.ts';
import { damaged, type MessagePlace, tooWide, unsupported } from '../problems.ts';
import { MOST_BINARY_FACTOR, MOST_DECIMAL_FACTOR } from '../scale.ts';
import { ibm4, octet1, octet2, type Section, signed2 } from '../section.ts';

/** The packing, and the number of grid points, which grids without columns and rows leave to the data. */
export interface PackingEdition1 {
  readonly packing: Packing;
  readonly support: Problem | null;
  readonly pointCount: number;
}

/** Octets before the packed numbers in Section 4. */
const HEADER_OCTETS = 11;

/** Reads octets 4 to 11 of Section 4; `gridCount` is 0 when the grid does not tell. */
export function readPackingEdition1(
  place: MessagePlace,
  sections: Edition1Sections,
  gridCount: number,
): PackingEdition1 {
  const { product, data, bitmap } = sections;
  const bitsPerValue = octet1(data, 11);
  const unusedBits = octet1(data, 4) & 0x0f;
  const heldBits = Math.max(0, (data.lengthOctets - HEADER_OCTETS) * 8 - unusedBits);
  const method = methodOf(data);
  // Only in simple packing is every value as wide as octet 11 says.
  const isCounted = method === 'simple' && bitsPerValue > 0;
  const heldCount = isCounted ? Math.floor(heldBits / bitsPerValue) : gridCount;
  const pointCount = gridCount > 0 ? gridCount : countFromData(sections, heldCount);
  const packing: Packing = {
    method,
    templateNumber: null,
    description: describe(data),
    bitsPerValue,
    decimalScaleFactor: signed2(product, 27),
    binaryScaleFactor: signed2(data, 5),
    referenceValue: ibm4(data, 7),
    packedCount: bitmap === null ? pointCount : Math.min(heldCount, pointCount),
  };
  return { packing, support: packingObstacle(place, sections, packing), pointCount };
}

/** Grids without columns and rows: as many points as the bitmap has bits, else as there are values. */
function countFromData({ bitmap }: Edition1Sections, heldCount: number): number {
  return bitmap === null ? heldCount : Math.max(0, (bitmap.lengthOctets - 6) * 8 - octet1(bitmap, 4));
}

const SPHERICAL = 0x80;
const SECOND_ORDER = 0x40;
const ADDITIONAL = 0x10;

/** Flags of code table 11, octet 4, bits 1 to 4, that are refused. Second-order packing always has additional flags. */
function refusedFlag(data: Section): { flag: number; name: string } | null {
  const flags = octet1(data, 4);
  if ((flags & SPHERICAL) !== 0) return { flag: SPHERICAL, name: 'spherical harmonic coefficients' };
  const hasMatrix = (flags & ADDITIONAL) !== 0 && (flags & SECOND_ORDER) === 0;
  return hasMatrix ? { flag: ADDITIONAL, name: 'additional flags (a matrix of values at each point)' } : null;
}

function methodOf(data: Section): PackingMethod {
  if (refusedFlag(data) !== null) return 'other';
  return (octet1(data, 4) & SECOND_ORDER) === 0 ? 'simple' : 'second-order';
}

const describe = (data: Section): string => refusedFlag(data)?.name ?? methodOf(data).replace('-', ' ');

function packingObstacle(place: MessagePlace, sections: Edition1Sections, packing: Packing): Problem | null {
  const { data, bitmap } = sections;
  const refused = refusedFlag(data);
  if (refused !== null) return unsupportedFlag(place, data, refused);
  if (bitmap !== null && octet2(bitmap, 5) !== 0) return catalogueBitmap(place, bitmap);
  if (packing.bitsPerValue > WIDEST_BITS) return tooWide(place, { section: data, octet: 11 }, packing.bitsPerValue);
  const isSane =
    Math.abs(packing.decimalScaleFactor) <= MOST_DECIMAL_FACTOR &&
    Math.abs(packing.binaryScaleFactor) <= MOST_BINARY_FACTOR;
  if (isSane) return packing.method === 'second-order' ? secondOrderObstacleEdition1(place, data) : null;
  return damaged(place, {
    code: 'grib.scale-impossible',
    section: data,
    octet: 5,
    what: `The binary factor is ${packing.binaryScaleFactor}, the decimal factor ${packing.decimalScaleFactor}.`,
    expected: `factors within ±${MOST_BINARY_FACTOR} and ±${MOST_DECIMAL_FACTOR}`,
  });
}

const unsupportedFlag = (place: MessagePlace, data: Section, refused: { flag: number; name: string }): Problem =>
  unsupported(place, {
    code: 'grib.packing-unsupported',
    section: data,
    octet: 4,
    table: 'GRIB1 code table 11 (flag)',
    value: refused.flag,
    name: refused.name,
    expected: 'grid-point values in simple or second-order packing',
    remedy:
      'Ask the source for simple packing, or convert the file: grib_set -r -s packingType=grid_simple in.grib out.grib.',
  });

const catalogueBitmap = (place: MessagePlace, bitmap: Section): Problem =>
  unsupported(place, {
    code: 'grib.bitmap-unsupported',
    section: bitmap,
    octet: 5,
    table: 'Bitmap catalogue of the originating centre',
    value: octet2(bitmap, 5),
    name: 'a bitmap known only to the originating centre',
    expected: '0 (the bitmap follows)',
    remedy: 'Ask the source for the field with its bitmap in the message.',
  });
