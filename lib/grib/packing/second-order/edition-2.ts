/**
 * Local templates 5.50001 and 5.50002 of edition 2: the general extended packing of edition 1, its head in Section 5.
 * Template 5.50002 has one octet more, for the order of the points.
 */
import type { Problem } from '../../../result/index.ts';
import { viewForRuns, WIDEST_BITS } from '../../bits.ts';
import { type MessagePlace, tooShort, tooWide, unsupported } from '../../problems.ts';
import { octet1, octet2, octet4, type Section } from '../../section.ts';
import { type Differencing, differencingOctets, NO_DIFFERENCING, readDifferencing } from './differencing.ts';
import { expandExtended, type ExtendedCoding, readExtendedGroups } from './extended.ts';
import { groupsDisagree } from './groups.ts';
import type { SecondOrderEdition2 } from './source.ts';

/** Octet of the flags in template 5.50002; in 5.50001 the order stands there. */
export const FLAGS_OCTET = 32;
const BOUSTROPHEDONIC = 0x80;
/** Octets of Section 7 before the tables. */
const HEAD_OCTETS = 5;
/** Octets of Section 5 of a field of 0 bits, which template 5.50001 cuts short. */
const CONSTANT_OCTETS = 20;

const hasFlags = (representation: Section): boolean => octet2(representation, 10) === 50_002;
const orderOctet = (representation: Section): number => FLAGS_OCTET + (hasFlags(representation) ? 1 : 0);

/** Whether the field is constant: all numbers 0, nothing stored. For a Section 5 of at least 20 octets. */
export const isConstant = (representation: Section): boolean =>
  octet1(representation, 20) === 0 && (!hasFlags(representation) || octet4(representation, 22) === 0);

export const isBoustrophedonicEdition2 = (representation: Section): boolean =>
  hasFlags(representation) && (octet1(representation, FLAGS_OCTET) & BOUSTROPHEDONIC) !== 0;

/**
 * Why a field in template 5.50001 or 5.50002 cannot be read; null when it can. Refuses reserved flags and orders above 3 by
 * name. `representation` is Section 5, at least 11 octets, of one of the two templates.
 */
export function secondOrderObstacleEdition2(place: MessagePlace, representation: Section): Problem | null {
  const octet = orderOctet(representation);
  const isCutShort = representation.lengthOctets >= CONSTANT_OCTETS && isConstant50001(representation);
  const short = tooShort(place, representation, isCutShort ? CONSTANT_OCTETS : octet);
  if (short !== null || isCutShort) return short;
  const refused = refusedCode(representation);
  if (refused !== null) return unsupportedCode(place, representation, refused);
  const referenceBits = octet1(representation, 21);
  if (referenceBits > WIDEST_BITS) return tooWide(place, { section: representation, octet: 21 }, referenceBits);
  return descriptorFault(place, representation, octet);
}

const isConstant50001 = (representation: Section): boolean =>
  !hasFlags(representation) && octet1(representation, 20) === 0;

function descriptorFault(place: MessagePlace, representation: Section, octet: number): Problem | null {
  const order = octet1(representation, octet);
  const short = order === 0 ? null : tooShort(place, representation, octet + 1);
  if (short !== null || order === 0) return short;
  const widthBits = octet1(representation, octet + 1);
  if (widthBits > WIDEST_BITS) return tooWide(place, { section: representation, octet: octet + 1 }, widthBits);
  return tooShort(place, representation, octet + differencingOctets(order, widthBits));
}

interface RefusedCode {
  readonly octet: number;
  readonly name: string;
  readonly expected: string;
}

function refusedCode(representation: Section): RefusedCode | null {
  if (hasFlags(representation) && (octet1(representation, FLAGS_OCTET) & ~BOUSTROPHEDONIC) !== 0) {
    return { octet: FLAGS_OCTET, name: 'reserved flags', expected: 'bit 1 or none (boustrophedonic order)' };
  }
  const octet = orderOctet(representation);
  if (octet1(representation, octet) <= 3) return null;
  return { octet, name: 'order of spatial differencing', expected: 'order 0 to 3' };
}

const unsupportedCode = (place: MessagePlace, representation: Section, refused: RefusedCode): Problem =>
  unsupported(place, {
    code: 'grib.packing-unsupported',
    section: representation,
    octet: refused.octet,
    table: `Local template 5.${octet2(representation, 10)}`,
    value: octet1(representation, refused.octet),
    name: refused.name,
    expected: refused.expected,
    remedy:
      'Ask the source for simple packing, or convert the file: grib_set -r -s packingType=grid_simple in.grib2 out.grib2.',
  });

const ORDERS = [0, 1, 2, 3] as const;

/** Octets 21 and following of Section 5, which `secondOrderObstacleEdition2` has found complete. */
function readCoding({ bytes, representation }: SecondOrderEdition2): ExtendedCoding {
  const octet = orderOctet(representation);
  const order: Differencing['order'] = ORDERS[octet1(representation, octet)] ?? 0;
  const at = { section: representation, octet: octet + 1 };
  return {
    groupCount: octet4(representation, 22),
    widthEntryBits: octet1(representation, 30),
    lengthEntryBits: octet1(representation, 31),
    referenceBits: octet1(representation, 21),
    differencing: order === 0 ? NO_DIFFERENCING : readDifferencing(bytes, at, order),
    firstOctet: HEAD_OCTETS + 1,
    at: {
      section: representation,
      groupCountOctet: 22,
      widthEntryOctet: 30,
      lengthEntryOctet: 31,
      referenceOctet: 21,
    },
  };
}

/** Fills `numbers`, one for each point that has a value, of a field that is not constant. */
export function unpackExtendedEdition2(
  place: MessagePlace,
  source: SecondOrderEdition2,
  numbers: Float64Array,
): Problem | null {
  const { bytes, data, representation } = source;
  const coding = readCoding(source);
  const extended = { data, view: viewForRuns(bytes, data), coding, count: numbers.length };
  const read = readExtendedGroups(place, extended);
  if ('remedy' in read) return read;
  const groupedCount = numbers.length - coding.differencing.order;
  const statedCount = octet4(representation, 26);
  if (statedCount === groupedCount) return expandExtended(place, extended, { groups: read.groups, numbers });
  const what = `${statedCount} second-order values are declared.`;
  return groupsDisagree(place, { section: representation, octet: 26 }, { what, expected: `${groupedCount}` });
}
