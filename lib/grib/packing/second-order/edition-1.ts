/** Second-order packing of edition 1: head of Section 4 and its layouts (WMO-No. 306, FM 92-VIII GRIB, Section 4). */
import type { Problem } from '../../../result/index.ts';
import { viewForRuns } from '../../bits.ts';
import type { MessagePlace } from '../../problems.ts';
import { octet1, octet2, type Section } from '../../section.ts';
import { readDifferencing, NO_DIFFERENCING } from './differencing.ts';
import { expandExtended, type ExtendedCoding, readExtendedGroups } from './extended.ts';
import { EXTENDED_HEAD_OCTETS, type ExtendedFlags } from './extended-flags.ts';
import { groupsDisagree } from './groups.ts';
import type { SecondOrderEdition1 } from './source.ts';

/** Greatest number of two octets; encoders write it for every greater one. */
const SATURATED = 0xffff;

/** Number of first-order values P1: octets 17-18, and the high octet that encoders keep in octet 21, reserved in the standard. */
export const firstOrderCount = (data: Section): number => octet2(data, 17) + 65_536 * octet1(data, 21);

/** A number of two octets that the file gives, and what it must be. */
export interface StatedNumber {
  readonly octet: number;
  readonly name: string;
  readonly value: number;
}

/**
 * Compares what the head states with what follows from the layout. Numbers that two octets cannot hold are saturated or cut.
 * Without this check a layout that was misunderstood would yield values.
 */
export function statedNumbersFault(
  place: MessagePlace,
  data: Section,
  numbers: readonly StatedNumber[],
): Problem | null {
  const wrong = numbers.find(({ octet, value }) => {
    const stated = octet2(data, octet);
    const isCut = value > SATURATED && (stated === SATURATED || stated === value % 65_536);
    return stated !== value && !isCut;
  });
  if (wrong === undefined) return null;
  return groupsDisagree(
    place,
    { section: data, octet: wrong.octet },
    { what: `${wrong.name} is given as ${octet2(data, wrong.octet)}.`, expected: `${wrong.value}` },
  );
}

/** Octets 22-25 and the descriptors of the differencing, which `secondOrderObstacleEdition1` has found complete. */
function readExtendedCoding({ bytes, data }: SecondOrderEdition1, order: ExtendedFlags['order']): ExtendedCoding {
  const octet = EXTENDED_HEAD_OCTETS + 1;
  const differencing = order === 0 ? NO_DIFFERENCING : readDifferencing(bytes, { section: data, octet }, order);
  return {
    groupCount: firstOrderCount(data),
    widthEntryBits: octet1(data, 22),
    lengthEntryBits: octet1(data, 23),
    referenceBits: octet1(data, 11),
    differencing,
    firstOctet: octet + differencing.lengthOctets,
    at: { section: data, groupCountOctet: 17, widthEntryOctet: 22, lengthEntryOctet: 23, referenceOctet: 11 },
  };
}

/** General extended packing: fills `numbers`, one for each point that has a value. */
export function unpackExtendedEdition1(
  place: MessagePlace,
  source: SecondOrderEdition1,
  into: { readonly order: ExtendedFlags['order']; readonly numbers: Float64Array },
): Problem | null {
  const { bytes, data } = source;
  const { order, numbers } = into;
  const coding = readExtendedCoding(source, order);
  const extended = { data, view: viewForRuns(bytes, data), coding, count: numbers.length };
  const read = readExtendedGroups(place, extended);
  if ('remedy' in read) return read;
  const { groups } = read;
  const fault = statedNumbersFault(place, data, [
    { octet: 12, name: 'N1, the octet of the first-order values,', value: read.referencesOctet },
    { octet: 15, name: 'N2, the octet of the second-order values,', value: groups.firstOctet },
    { octet: 19, name: 'P2, the number of second-order values,', value: numbers.length - order },
    { octet: 24, name: 'The octet of the group lengths', value: read.lengthsOctet },
  ]);
  return fault ?? expandExtended(place, extended, { groups, numbers });
}
