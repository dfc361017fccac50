/** General extended second-order packing: tables of widths, lengths and first-order values (edition 1, templates 5.50001 and 5.50002). */
import type { Problem } from '../../../result/index.ts';
import type { MessagePlace } from '../../problems.ts';
import type { Section } from '../../section.ts';
import { type Differencing, undoDifferences } from './differencing.ts';
import { expandGroups, type Groups, groupsDisagree, sumOf } from './groups.ts';
import { readTables } from './tables.ts';

/** What the octets before the tables say. */
export interface ExtendedCoding {
  readonly groupCount: number;
  /** Bits of each entry of the three tables. */
  readonly widthEntryBits: number;
  readonly lengthEntryBits: number;
  readonly referenceBits: number;
  readonly differencing: Differencing;
  /** Octet of the data section at which the table of widths begins. */
  readonly firstOctet: number;
  /** Section and octets that hold the entries above, for problems. */
  readonly at: {
    readonly section: Section;
    readonly groupCountOctet: number;
    readonly widthEntryOctet: number;
    readonly lengthEntryOctet: number;
    readonly referenceOctet: number;
  };
}

interface ExtendedData {
  readonly data: Section;
  /** `data` through `viewForRuns`. */
  readonly view: DataView;
  readonly coding: ExtendedCoding;
  /** Numbers to be had: one for each point that has a value. */
  readonly count: number;
}

/** Groups and the octets at which their tables begin. */
export interface ExtendedGroups {
  readonly groups: Groups;
  readonly lengthsOctet: number;
  readonly referencesOctet: number;
}

/** Reads the tables; refuses groups that do not hold the expected numbers. */
export function readExtendedGroups(place: MessagePlace, source: ExtendedData): ExtendedGroups | Problem {
  const { coding, count } = source;
  const { groupCount, at, differencing } = coding;
  const groupedCount = count - differencing.order;
  const countAt = { section: at.section, octet: at.groupCountOctet };
  // Before anything is allocated: entries of 0 bits take no room in the file, so that their number would be without limit.
  if (groupCount > Math.max(groupedCount, 0) || (groupCount > 0 && coding.lengthEntryBits === 0)) {
    return groupsDisagree(place, countAt, {
      what: `${groupCount} groups are declared for ${groupedCount} values.`,
      expected: 'no more groups than values, each with its length',
    });
  }
  const widthAt = (octet: number): { section: Section; octet: number } => ({ section: at.section, octet });
  const tables = readTables(place, { section: source.data, view: source.view, firstOctet: coding.firstOctet }, [
    { count: groupCount, widthBits: coding.widthEntryBits, widthAt: widthAt(at.widthEntryOctet) },
    { count: groupCount, widthBits: coding.lengthEntryBits, widthAt: widthAt(at.lengthEntryOctet) },
    { count: groupCount, widthBits: coding.referenceBits, widthAt: widthAt(at.referenceOctet) },
  ]);
  if ('remedy' in tables) return tables;
  const [widths = NONE, lengths = NONE, references = NONE] = tables.columns;
  const heldCount = sumOf(lengths);
  if (heldCount !== groupedCount) {
    return groupsDisagree(place, countAt, {
      what: `The groups hold ${heldCount} values.`,
      expected: `${groupedCount}, one for each point that has a value${differencing.order === 0 ? '' : `, less ${differencing.order} given apart`}`,
    });
  }
  const [, lengthsOctet = 0, referencesOctet = 0, firstOctet = 0] = tables.octets;
  return { groups: { widths, lengths, references, firstOctet }, lengthsOctet, referencesOctet };
}

const NONE = new Float64Array(0);

/** Fills `numbers`, `count` of them, from all groups, and undoes the differences. */
export function expandExtended(
  place: MessagePlace,
  { data, view, coding }: ExtendedData,
  into: { readonly groups: Groups; readonly numbers: Float64Array },
): Problem | null {
  const { groups, numbers } = into;
  const { differencing } = coding;
  const fault = expandGroups(place, { data, view, groups }, { numbers, fromIndex: differencing.order });
  if (fault === null) undoDifferences(numbers, differencing);
  return fault;
}
