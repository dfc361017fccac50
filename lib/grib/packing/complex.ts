/** Templates 5.2 and 5.3: numbers in groups, each with its own reference, width and length. */
import type { Problem } from '../../result/index.ts';
import { readUnsigned } from '../bits.ts';
import type { MessagePlace } from '../problems.ts';
import { applyScale } from '../scale.ts';
import { ieee4, octet1, octet2, octet4, type Section, signed2 } from '../section.ts';
import { type Differencing, integrate, readDifferencing } from './differencing.ts';
import { type Groups, type GroupCoding, readGroups } from './groups.ts';
import { dataTooShort } from './simple.ts';

/** Sections 5 and 7 of a field. */
export interface ComplexData {
  readonly bytes: Uint8Array;
  readonly representation: Section;
  readonly data: Section;
  /** Values packed: Section 5, octets 6-9. */
  readonly count: number;
}

/** Octets of Section 7 before the packed data. */
const HEADER_OCTETS = 5;

/** Values of the field; missing ones are NaN. No group, or an empty Section 7, is a constant field of the reference value. */
export function unpackComplex(place: MessagePlace, field: ComplexData): Float64Array | Problem {
  const { representation, data, count } = field;
  const referenceValue = ieee4(representation, 12);
  if (data.lengthOctets === HEADER_OCTETS || octet4(representation, 32) === 0) {
    return new Float64Array(count).fill(referenceValue);
  }
  const isDifferenced = octet2(representation, 10) === 3 && octet1(representation, 48) > 0;
  const differencing = isDifferenced ? readDifferencing(place, representation, data) : null;
  if (differencing !== null && 'remedy' in differencing) return differencing;
  const firstOctet = HEADER_OCTETS + 1 + (differencing?.lengthOctets ?? 0);
  const groups = readGroups(place, field, { coding: readCoding(representation), firstOctet });
  if ('remedy' in groups) return groups;
  const packed = unpackGroups(place, field, groups);
  if ('remedy' in packed) return packed;
  return finish(packed, representation, differencing);
}

function finish(packed: Float64Array, representation: Section, differencing: Differencing | null): Float64Array {
  if (differencing !== null) integrate(packed, differencing);
  return applyScale(packed, {
    referenceValue: ieee4(representation, 12),
    binaryScaleFactor: signed2(representation, 16),
    decimalScaleFactor: signed2(representation, 18),
  });
}

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

/** Whole numbers of all groups, group reference added, missing ones NaN. */
function unpackGroups(place: MessagePlace, field: ComplexData, groups: Groups): Float64Array | Problem {
  const { bytes, data, count } = field;
  const endBitIndex = (data.startIndex + data.lengthOctets) * 8;
  if (groups.firstBitIndex + groups.totalBits > endBitIndex) return dataTooShort(place, data, groups.totalBits);
  const values = new Float64Array(count);
  let startBitIndex = groups.firstBitIndex;
  let fromIndex = 0;
  for (let group = 0; group < groups.lengths.length; group++) {
    const widthBits = groups.widths[group] ?? 0;
    const toIndex = fromIndex + (groups.lengths[group] ?? 0);
    readUnsigned({ bytes, startBitIndex, widthBits }, values, { fromIndex, toIndex });
    addReference(values, { fromIndex, toIndex, widthBits, reference: groups.references[group] ?? 0 }, groups);
    startBitIndex += widthBits * (toIndex - fromIndex);
    fromIndex = toIndex;
  }
  return values;
}

interface GroupSlice {
  readonly fromIndex: number;
  readonly toIndex: number;
  readonly widthBits: number;
  readonly reference: number;
}

/**
 * Adds the group reference, and marks missing values: all bits one (primary), or all but the last (secondary, management 2),
 * at the group's width; in a group of width 0 the group reference itself carries the mark (notes to template 5.2).
 */
function addReference(values: Float64Array, slice: GroupSlice, groups: Groups): void {
  const { fromIndex, toIndex, widthBits, reference } = slice;
  if (groups.missingManagement === 0) {
    for (let i = fromIndex; i < toIndex; i++) values[i] = (values[i] ?? 0) + reference;
    return;
  }
  const allOnes = 2 ** (widthBits === 0 ? groups.referenceBits : widthBits) - 1;
  const lowestMark = groups.missingManagement === 2 ? allOnes - 1 : allOnes;
  if (widthBits === 0) {
    values.fill(reference >= lowestMark ? NaN : reference, fromIndex, toIndex);
    return;
  }
  for (let i = fromIndex; i < toIndex; i++) {
    const packed = values[i] ?? 0;
    values[i] = packed >= lowestMark ? NaN : packed + reference;
  }
}
