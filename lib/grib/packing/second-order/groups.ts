/** Groups of second-order packing: each point's number is the first-order value of its group plus a second-order value. */
import type { Problem } from '../../../result/index.ts';
import { readRun, WIDEST_BITS } from '../../bits.ts';
import { damaged, type MessagePlace, tooWide } from '../../problems.ts';
import type { Section } from '../../section.ts';
import { dataTooShort } from '../simple.ts';

/** Groups in the order of the file; the three arrays are equally long. */
export interface Groups {
  /** First-order value of each group. */
  readonly references: Float64Array;
  /** Bits of each second-order value of a group; 0 stores none, and the group is constant. */
  readonly widths: Float64Array;
  /** Values in each group. */
  readonly lengths: Float64Array;
  /** Octet of the data section at which the second-order values begin, from 1. */
  readonly firstOctet: number;
}

interface GroupData {
  readonly data: Section;
  /** `data` through `viewForRuns`. */
  readonly view: DataView;
  readonly groups: Groups;
}

/** `grib.groups-inconsistent`: what the file says of its groups does not agree. */
export const groupsDisagree = (
  place: MessagePlace,
  at: { readonly section: Section; readonly octet: number },
  texts: { readonly what: string; readonly expected: string },
): Problem => damaged(place, { code: 'grib.groups-inconsistent', ...at, ...texts });

/** Sum of the lengths. */
export const sumOf = (lengths: Float64Array): number => lengths.reduce((sum, length) => sum + length, 0);

/**
 * Writes the numbers of all groups into `numbers` from `fromIndex` on, where the lengths must fit.
 *
 * @returns null, or the problem that the section does not hold the second-order values
 */
export function expandGroups(
  place: MessagePlace,
  { data, view, groups }: GroupData,
  into: { readonly numbers: Float64Array; readonly fromIndex: number },
): Problem | null {
  const fault = widthFault(place, data, groups);
  if (fault !== null) return fault;
  const { numbers } = into;
  let startBitIndex = (groups.firstOctet - 1) * 8;
  let fromIndex = into.fromIndex;
  // Plain loops: all values of the field pass through here.
  for (let group = 0; group < groups.lengths.length; group++) {
    const widthBits = groups.widths[group] ?? 0;
    const toIndex = fromIndex + (groups.lengths[group] ?? 0);
    const addedCount = groups.references[group] ?? 0;
    readRun({ view, startBitIndex, widthBits }, numbers, { fromIndex, toIndex, addedCount });
    startBitIndex += widthBits * (toIndex - fromIndex);
    fromIndex = toIndex;
  }
  return null;
}

function widthFault(place: MessagePlace, data: Section, groups: Groups): Problem | null {
  let totalBits = 0;
  for (let group = 0; group < groups.lengths.length; group++) {
    const widthBits = groups.widths[group] ?? 0;
    if (widthBits > WIDEST_BITS) return tooWide(place, { section: data, octet: groups.firstOctet }, widthBits);
    totalBits += widthBits * (groups.lengths[group] ?? 0);
  }
  const heldBits = (data.lengthOctets - (groups.firstOctet - 1)) * 8;
  return totalBits > heldBits ? dataTooShort(place, data, totalBits) : null;
}
