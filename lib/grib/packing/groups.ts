/** Group references, widths and lengths at the head of Section 7 (templates 7.2 and 7.3). */
import type { Problem } from '../../result/index.ts';
import { readRun, viewForRuns, WIDEST_BITS } from '../bits.ts';
import { damaged, type MessagePlace, tooWide } from '../problems.ts';
import type { Section } from '../section.ts';
import { dataTooShort } from './simple.ts';

/** Octets 20-47 of Section 5, templates 5.2 and 5.3. */
export interface GroupCoding {
  readonly referenceBits: number;
  /** Code table 5.5. */
  readonly missingManagement: number;
  readonly groupCount: number;
  readonly widthReferenceBits: number;
  readonly widthBits: number;
  readonly lengthReferenceCount: number;
  readonly lengthIncrementCount: number;
  readonly lastLengthCount: number;
  readonly scaledLengthBits: number;
}

/** All groups; lengths add up to the number of values. */
export interface Groups {
  readonly references: Float64Array;
  readonly widths: Float64Array;
  readonly lengths: Float64Array;
  readonly referenceBits: number;
  readonly missingManagement: number;
  /** Section 7. */
  readonly view: DataView;
  /** First bit of the packed values in the section. */
  readonly firstBitIndex: number;
  /** Bits of all packed values. */
  readonly totalBits: number;
}

/** Groups that may take no bit at all: all of one width, length and reference. More are a trap for memory, not a field. */
const MOST_FREE_GROUPS = 1_000_000;

interface GroupSource {
  readonly bytes: Uint8Array;
  readonly representation: Section;
  readonly data: Section;
  readonly count: number;
}

/** Reads the group tables, which begin at `firstOctet` of Section 7, each table on a whole octet. */
export function readGroups(
  place: MessagePlace,
  source: GroupSource,
  from: { coding: GroupCoding; firstOctet: number },
): Groups | Problem {
  const { coding } = from;
  const impossible = impossibleCoding(place, source, coding);
  if (impossible !== null) return impossible;
  const tables = [coding.referenceBits, coding.widthBits, coding.scaledLengthBits];
  const tableOctets = tables.map((widthBits) => Math.ceil((widthBits * coding.groupCount) / 8));
  const headOctets = tableOctets.reduce((sum, octets) => sum + octets, from.firstOctet - 1);
  if (headOctets > source.data.lengthOctets) return dataTooShort(place, source.data, headOctets * 8);
  const view = viewForRuns(source.bytes, source.data);
  const [referenceOctets = 0, widthOctets = 0] = tableOctets;
  const firstIndex = from.firstOctet - 1;
  const table = (widthBits: number, startIndex: number): Float64Array => {
    const numbers = new Float64Array(coding.groupCount);
    const range = { fromIndex: 0, toIndex: coding.groupCount, addedCount: 0 };
    readRun({ view, startBitIndex: startIndex * 8, widthBits }, numbers, range);
    return numbers;
  };
  return complete(place, source, {
    coding,
    view,
    references: table(coding.referenceBits, firstIndex),
    widths: table(coding.widthBits, firstIndex + referenceOctets),
    lengths: table(coding.scaledLengthBits, firstIndex + referenceOctets + widthOctets),
    firstBitIndex: headOctets * 8,
  });
}

function impossibleCoding(place: MessagePlace, source: GroupSource, coding: GroupCoding): Problem | null {
  const { representation } = source;
  if (coding.groupCount > source.count) {
    return damaged(place, {
      code: 'grib.groups-inconsistent',
      section: representation,
      octet: 32,
      what: `${coding.groupCount} groups are declared for ${source.count} values.`,
      expected: 'no more groups than values',
    });
  }
  if (coding.groupCount > Math.max(MOST_FREE_GROUPS, source.data.lengthOctets * 8)) {
    return damaged(place, {
      code: 'grib.groups-inconsistent',
      section: representation,
      octet: 32,
      what: `${coding.groupCount} groups are declared for a section 7 of ${source.data.lengthOctets} octets.`,
      expected: 'no more groups than the section has bits',
    });
  }
  const widest = [
    { octet: 20, bits: coding.referenceBits },
    { octet: 37, bits: coding.widthBits },
    { octet: 47, bits: coding.scaledLengthBits },
  ].find(({ bits }) => bits > WIDEST_BITS);
  return widest === undefined ? null : tooWide(place, { section: representation, octet: widest.octet }, widest.bits);
}

type RawGroups = Pick<Groups, 'references' | 'widths' | 'lengths' | 'view' | 'firstBitIndex'> & {
  readonly coding: GroupCoding;
};

/** Widths and lengths from their scaled forms; the last length is stored apart (octets 43-46). */
function complete(place: MessagePlace, source: GroupSource, raw: RawGroups): Groups | Problem {
  const { coding, references, widths, lengths, view, firstBitIndex } = raw;
  const lastIndex = coding.groupCount - 1;
  let totalBits = 0;
  let totalCount = 0;
  for (let group = 0; group <= lastIndex; group++) {
    const width = (widths[group] ?? 0) + coding.widthReferenceBits;
    const scaled = (lengths[group] ?? 0) * coding.lengthIncrementCount + coding.lengthReferenceCount;
    const length = group === lastIndex ? coding.lastLengthCount : scaled;
    if (width > WIDEST_BITS) return tooWide(place, { section: source.representation, octet: 36 }, width);
    widths[group] = width;
    lengths[group] = length;
    totalBits += width * length;
    totalCount += length;
  }
  if (totalCount !== source.count) return lengthsDoNotAddUp(place, source, totalCount);
  const { referenceBits, missingManagement } = coding;
  return { references, widths, lengths, referenceBits, missingManagement, view, firstBitIndex, totalBits };
}

const lengthsDoNotAddUp = (place: MessagePlace, source: GroupSource, totalCount: number): Problem =>
  damaged(place, {
    code: 'grib.groups-inconsistent',
    section: source.representation,
    octet: 38,
    what: `The groups hold ${totalCount} values.`,
    expected: `${source.count}, as section 5, octets 6-9 say`,
  });
