/**
 * Second-order packing as the standard of edition 1 defines it (Section 4, grid-point data, second-order packing, notes 1 to 6):
 * groups are the rows of the grid, or begin where a secondary bitmap says; one width for all of them, or one for each.
 */
import type { Problem } from '../../../result/index.ts';
import { readRun, viewForRuns } from '../../bits.ts';
import type { MessagePlace } from '../../problems.ts';
import { octet1, type Section } from '../../section.ts';
import { lineLength } from './boustrophedon.ts';
import { firstOrderCount, statedNumbersFault } from './edition-1.ts';
import { CLASSIC_HEAD_OCTETS, type ExtendedFlags } from './extended-flags.ts';
import { expandGroups, type Groups, groupsDisagree, sumOf } from './groups.ts';
import type { SecondOrderEdition1 } from './source.ts';
import { readTables, type Tables } from './tables.ts';

interface ClassicData {
  readonly flags: ExtendedFlags;
  /** Points that have a value. */
  readonly count: number;
  readonly data: Section;
  /** `data` through `viewForRuns`. */
  readonly view: DataView;
  readonly groupCount: number;
  /** Values in each row; null where a secondary bitmap says where groups begin. */
  readonly rows: Float64Array | null;
}

/** Bits of a bitmap begin after six octets of its section. */
const BITMAP_HEAD_OCTETS = 6;

/** What is read, and where it goes. */
interface ClassicField {
  readonly source: SecondOrderEdition1;
  readonly flags: ExtendedFlags;
  /** Points of the grid, masked ones included. */
  readonly pointCount: number;
}

/** Fills `numbers`, one for each point that has a value. */
export function unpackClassic(place: MessagePlace, field: ClassicField, numbers: Float64Array): Problem | null {
  const { source, flags } = field;
  const { bytes, data } = source;
  const rows = flags.hasSecondaryBitmap ? null : rowLengths(place, source, field.pointCount);
  if (rows !== null && 'remedy' in rows) return rows;
  const view = viewForRuns(bytes, data);
  const groupCount = firstOrderCount(data);
  const groups = readGroups(place, { flags, count: numbers.length, data, view, groupCount, rows });
  if ('remedy' in groups) return groups;
  return expandGroups(place, { data, view, groups }, { numbers, fromIndex: 0 });
}

/** Widths (one octet each), secondary bitmap and first-order values stand one after another. */
function readGroups(place: MessagePlace, source: ClassicData): Groups | Problem {
  const { data, view, flags, count, rows, groupCount } = source;
  const wrongCount = groupCountFault(place, source);
  if (wrongCount !== null) return wrongCount;
  const widthAt = { section: data, octet: 11 };
  const tables = readTables(place, { section: data, view, firstOctet: CLASSIC_HEAD_OCTETS + 1 }, [
    { count: flags.hasDifferentWidths ? groupCount : 1, widthBits: 8, widthAt },
    { count: rows === null ? count : 0, widthBits: 1, widthAt },
    { count: groupCount, widthBits: octet1(data, 11), widthAt },
  ]);
  if ('remedy' in tables) return tables;
  const fault = statedNumbersFault(place, data, [
    { octet: 12, name: 'N1, the octet of the first-order values,', value: tables.octets[2] ?? 0 },
    { octet: 15, name: 'N2, the octet of the second-order values,', value: tables.octets[3] ?? 0 },
    { octet: 19, name: 'P2, the number of second-order values,', value: count },
  ]);
  return fault ?? groupsOf(place, source, tables);
}

function groupsOf(place: MessagePlace, source: ClassicData, tables: Tables): Groups | Problem {
  const { data, flags, rows, groupCount } = source;
  const [widths = NONE, secondaryBitmap = NONE, references = NONE] = tables.columns;
  const lengths = rows ?? secondaryLengths(secondaryBitmap, groupCount);
  const [, bitmapOctet = 0, , firstOctet = 0] = tables.octets;
  if (lengths === null) return secondaryBitmapFault(place, data, bitmapOctet);
  const allWidths = flags.hasDifferentWidths ? widths : new Float64Array(groupCount).fill(widths[0] ?? 0);
  return { references, widths: allWidths, lengths, firstOctet };
}

const NONE = new Float64Array(0);

/** Asked before anything is allocated: first-order values of 0 bits take no room in the file. */
function groupCountFault(place: MessagePlace, { data, count, rows, groupCount }: ClassicData): Problem | null {
  const isRight = rows === null ? groupCount <= count : groupCount === rows.length;
  if (isRight) return null;
  const expected = rows === null ? `at most ${count}, one for each value` : `${rows.length}, one for each row`;
  const what = `${groupCount} first-order values are declared.`;
  return groupsDisagree(place, { section: data, octet: 17 }, { what, expected });
}

/** A bit of 1 begins a group (note 3). Null when the first bit is not 1 or the groups are not `groupCount`. */
function secondaryLengths(secondaryBitmap: Float64Array, groupCount: number): Float64Array | null {
  const lengths = new Float64Array(groupCount);
  if (secondaryBitmap[0] !== 1) return null;
  let group = -1;
  for (const bit of secondaryBitmap) {
    group += bit;
    if (group >= groupCount) return null;
    lengths[group] = (lengths[group] ?? 0) + 1;
  }
  return group === groupCount - 1 ? lengths : null;
}

function secondaryBitmapFault(place: MessagePlace, data: Section, octet: number): Problem {
  const what = 'The secondary bitmap marks another number of groups than there are first-order values.';
  const expected = `1 in its first bit and ${firstOrderCount(data)} bits of 1 in all`;
  return groupsDisagree(place, { section: data, octet }, { what, expected });
}

/** Without a secondary bitmap a group begins at the first point of each row (note 4); masked points are left out. */
function rowLengths(place: MessagePlace, source: SecondOrderEdition1, pointCount: number): Float64Array | Problem {
  const { bytes, data, bitmap } = source;
  const linePointCount = lineLength(place, { ...source, pointCount }, { section: data, octet: 14 });
  if (typeof linePointCount !== 'number') return linePointCount;
  const lengths = new Float64Array(pointCount / linePointCount);
  if (bitmap === null) return lengths.fill(linePointCount);
  const view = viewForRuns(bytes, bitmap);
  const row = new Float64Array(linePointCount);
  return lengths.map((_, rowIndex) => {
    const startBitIndex = BITMAP_HEAD_OCTETS * 8 + rowIndex * linePointCount;
    readRun({ view, startBitIndex, widthBits: 1 }, row, { fromIndex: 0, toIndex: linePointCount, addedCount: 0 });
    return sumOf(row);
  });
}
