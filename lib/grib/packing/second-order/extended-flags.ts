/**
 * Octet 14 of Section 4 of edition 1: bits 5 to 12 of code table 11. Bits 5 to 8 are of the standard; the others, reserved
 * there, are in use for general extended packing, which its encoders define.
 */
import type { Problem } from '../../../result/index.ts';
import { type MessagePlace, tooShort, tooWide, unsupported } from '../../problems.ts';
import { WIDEST_BITS } from '../../bits.ts';
import { octet1, type Section } from '../../section.ts';
import { differencingOctets } from './differencing.ts';

const RESERVED = 0x80;
const MATRIX = 0x40;
const SECONDARY_BITMAP = 0x20;
const DIFFERENT_WIDTHS = 0x10;
const GENERAL_EXTENDED = 0x08;
const BOUSTROPHEDONIC = 0x04;
const ORDER = 0x03;

/** Octets before the widths, in the layout of the standard. */
export const CLASSIC_HEAD_OCTETS = 21;
/** Octets before the descriptors of the differencing, in the extended layout. */
export const EXTENDED_HEAD_OCTETS = 25;

/** The flags of a section of at least 14 octets. */
export interface ExtendedFlags {
  readonly isExtended: boolean;
  readonly hasSecondaryBitmap: boolean;
  readonly hasDifferentWidths: boolean;
  readonly isBoustrophedonic: boolean;
  /** Order of spatial differencing. */
  readonly order: 0 | 1 | 2 | 3;
}

const ORDERS = [0, 1, 2, 3] as const;

/** Reads octet 14. */
export function readExtendedFlags(data: Section): ExtendedFlags {
  const flags = octet1(data, 14);
  return {
    isExtended: (flags & GENERAL_EXTENDED) !== 0,
    hasSecondaryBitmap: (flags & SECONDARY_BITMAP) !== 0,
    hasDifferentWidths: (flags & DIFFERENT_WIDTHS) !== 0,
    isBoustrophedonic: (flags & BOUSTROPHEDONIC) !== 0,
    order: ORDERS[flags & ORDER] ?? 0,
  };
}

/** Combinations that are refused. */
const REFUSED: readonly { readonly name: string; readonly matches: (flagsCode: number) => boolean }[] = [
  { name: 'bit 5, reserved', matches: (flags) => (flags & RESERVED) !== 0 },
  { name: 'a matrix of values at each point', matches: (flags) => (flags & MATRIX) !== 0 },
  {
    name: 'general extended packing with a secondary bitmap or with one width for all groups',
    matches: (flags) =>
      (flags & GENERAL_EXTENDED) !== 0 && (flags & (SECONDARY_BITMAP | DIFFERENT_WIDTHS)) !== DIFFERENT_WIDTHS,
  },
  {
    name: 'boustrophedonic order or spatial differencing without general extended packing',
    matches: (flags) => (flags & GENERAL_EXTENDED) === 0 && (flags & (BOUSTROPHEDONIC | ORDER)) !== 0,
  },
];

/**
 * Why second-order packing of edition 1 cannot be read; null when it can. For a Section 4 of grid-point values whose octet 4
 * has bit 2 set. Refuses by name what no encoder at hand writes and the standard does not define.
 */
export function secondOrderObstacleEdition1(place: MessagePlace, data: Section): Problem | null {
  const short = tooShort(place, data, CLASSIC_HEAD_OCTETS);
  if (short !== null) return short;
  const flags = octet1(data, 14);
  const refused = REFUSED.find(({ matches }) => matches(flags));
  if (refused !== undefined) return unsupportedFlags(place, data, { flagsCode: flags, name: refused.name });
  const referenceBits = octet1(data, 11);
  if (referenceBits > WIDEST_BITS) return tooWide(place, { section: data, octet: 11 }, referenceBits);
  return (flags & GENERAL_EXTENDED) === 0 ? null : extendedHeadFault(place, data, flags & ORDER);
}

function extendedHeadFault(place: MessagePlace, data: Section, orderNumber: number): Problem | null {
  const widthOctet = EXTENDED_HEAD_OCTETS + 1;
  const short = tooShort(place, data, orderNumber === 0 ? EXTENDED_HEAD_OCTETS : widthOctet);
  if (short !== null || orderNumber === 0) return short;
  const widthBits = octet1(data, widthOctet);
  if (widthBits > WIDEST_BITS) return tooWide(place, { section: data, octet: widthOctet }, widthBits);
  return tooShort(place, data, EXTENDED_HEAD_OCTETS + differencingOctets(orderNumber, widthBits));
}

const unsupportedFlags = (place: MessagePlace, data: Section, found: { flagsCode: number; name: string }): Problem =>
  unsupported(place, {
    code: 'grib.packing-unsupported',
    section: data,
    octet: 14,
    table: 'GRIB1 code table 11 (extended flags)',
    value: found.flagsCode,
    name: found.name,
    expected: 'second-order packing by rows, with a secondary bitmap, or general extended with different widths',
    remedy:
      'Ask the source for simple packing, or convert the file: grib_set -r -s packingType=grid_simple in.grib out.grib.',
  });
