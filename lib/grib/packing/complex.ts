/** Templates 5.2 and 5.3: numbers in groups, each with its own reference, width and length. */
import type { Problem } from '../../result/index.ts';
import { readRun } from '../bits.ts';
import type { MessagePlace } from '../problems.ts';
import { linearScale, type LinearScale } from '../scale.ts';
import { ieee4, octet1, octet2, octet4, type Section, signed2 } from '../section.ts';
import { type Chain, chainFrom, finishRange, readDifferencing } from './differencing.ts';
import { type Groups, type GroupCoding, readGroups } from './groups.ts';
import { dataTooShort } from './simple.ts';

/** Sections 5 and 7 of a field. */
export interface ComplexData {
  readonly bytes: Uint8Array;
  readonly representation: Section;
  readonly data: Section;
}

/** Octets of Section 7 before the packed data. */
const HEADER_OCTETS = 5;

/**
 * Fills `values`, as many as are packed (Section 5, octets 6-9); missing ones are NaN. No group, or an empty Section 7, is a
 * constant field of the reference value.
 */
export function unpackComplex(place: MessagePlace, field: ComplexData, values: Float64Array): Problem | null {
  const { representation, data } = field;
  if (data.lengthOctets === HEADER_OCTETS || octet4(representation, 32) === 0) {
    values.fill(ieee4(representation, 12));
    return null;
  }
  const isDifferenced = octet2(representation, 10) === 3 && octet1(representation, 48) > 0;
  const differencing = isDifferenced ? readDifferencing(place, representation, data) : null;
  if (differencing !== null && 'remedy' in differencing) return differencing;
  const firstOctet = HEADER_OCTETS + 1 + (differencing?.lengthOctets ?? 0);
  const source = { ...field, count: values.length };
  const groups = readGroups(place, source, { coding: readCoding(representation), firstOctet });
  if ('remedy' in groups) return groups;
  if (groups.firstBitIndex + groups.totalBits > data.lengthOctets * 8) {
    return dataTooShort(place, data, groups.totalBits);
  }
  unpackGroups(groups, values, chainFrom(differencing, scaleOf(representation)));
  return null;
}

const scaleOf = (representation: Section): LinearScale =>
  linearScale({
    referenceValue: ieee4(representation, 12),
    binaryScaleFactor: signed2(representation, 16),
    decimalScaleFactor: signed2(representation, 18),
  });

/** Octets 20-47 of Section 5. */
function readCoding(representation: Section): GroupCoding {
  return {
    referenceBits: octet1(representation, 20),
    missingManagement: octet1(representation, 23),
    groupCount: octet4(representation, 32),
    widthReferenceBits: octet1(representation, 36),
    widthBits: octet1(representation, 37),
    lengthReferenceCount: octet4(representation, 38),
    lengthIncrementCount: octet1(representation, 42),
    lastLengthCount: octet4(representation, 43),
    scaledLengthBits: octet1(representation, 47),
  };
}

/** Numbers are turned into values while they are still near the processor. */
const BLOCK_COUNT = 2048;

function unpackGroups(groups: Groups, values: Float64Array, chain: Chain): void {
  let startBitIndex = groups.firstBitIndex;
  let fromIndex = 0;
  let finishedIndex = 0;
  for (let group = 0; group < groups.lengths.length; group++) {
    const widthBits = groups.widths[group] ?? 0;
    const toIndex = fromIndex + (groups.lengths[group] ?? 0);
    const slice = { fromIndex, toIndex, widthBits, startBitIndex, reference: groups.references[group] ?? 0 };
    if (groups.missingManagement === 0) {
      readRun({ view: groups.view, startBitIndex, widthBits }, values, {
        fromIndex,
        toIndex,
        addedCount: slice.reference,
      });
    } else readMarked(groups, values, slice);
    startBitIndex += widthBits * (toIndex - fromIndex);
    fromIndex = toIndex;
    if (fromIndex - finishedIndex >= BLOCK_COUNT) {
      finishRange(values, { fromIndex: finishedIndex, toIndex: fromIndex }, chain);
      finishedIndex = fromIndex;
    }
  }
  finishRange(values, { fromIndex: finishedIndex, toIndex: fromIndex }, chain);
}

interface GroupSlice {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly widthBits: number;
  readonly startBitIndex: number;
  readonly reference: number;
}

/**
 * Numbers with the group reference added, missing ones NaN: all bits one (primary), or all but the last (secondary,
 * management 2), at the group's width; in a group of width 0 the group reference itself carries the mark (notes to
 * template 5.2).
 */
function readMarked(groups: Groups, values: Float64Array, slice: GroupSlice): void {
  const { fromIndex, toIndex, widthBits, startBitIndex, reference } = slice;
  const allOnes = 2 ** (widthBits === 0 ? groups.referenceBits : widthBits) - 1;
  const lowestMark = groups.missingManagement === 2 ? allOnes - 1 : allOnes;
  if (widthBits === 0) {
    values.fill(reference >= lowestMark ? NaN : reference, fromIndex, toIndex);
    return;
  }
  readRun({ view: groups.view, startBitIndex, widthBits }, values, { fromIndex, toIndex, addedCount: 0 });
  for (let i = fromIndex; i < toIndex; i++) {
    const packed = values[i] ?? 0;
    values[i] = packed >= lowestMark ? NaN : packed + reference;
  }
}
