/** Sections 5 and 7 in complex packing with spatial differencing (templates 5.3 and 7.3), order 1 or 2, whichever is shorter. */
import { bitSink, bitsNeeded, padToOctet, putBits } from './bit-writer.ts';
import { ieeeOctets, sectionOctets, signedOctets, unsigned } from './octets.ts';
import { FLOATING_POINT, type PackedSections } from './pack-simple.ts';
import type { Quantised } from './quantise.ts';
import { groupWidthBits, type PackGroup, splitGroups } from './split-groups.ts';

/** Differences of larger numbers would not fit 32 bits. */
const LARGEST_PACKED = 2 ** 28;
/** Code table 5.4: general group splitting. */
const GENERAL_SPLITTING = 1;
/** Code table 5.5: no missing values inside the data; a bitmap tells them. */
const NO_MISSING = 0;

/** Null for constant, very short or very wide fields, which are packed simply. */
export function packComplex(field: Quantised): PackedSections | null {
  if (field.largestCount === 0 || field.largestCount > LARGEST_PACKED || field.packed.length < 3) return null;
  const [first, second] = [packWithOrder(field, 1), packWithOrder(field, 2)];
  return second.data.length <= first.data.length ? second : first;
}

function packWithOrder(field: Quantised, order: 1 | 2): PackedSections {
  const differences = differencesOf(field.packed, order);
  const minimum = differences.subarray(order).reduce((least, value) => Math.min(least, value), Infinity);
  // What stands at the first places is never read; 0 costs least.
  const numbers = differences.map((value, i) => (i < order ? 0 : value - minimum));
  const descriptors = [...field.packed.subarray(0, order), minimum];
  const descriptorOctets = Math.max(...descriptors.map(signedWidthOctets));
  const groups = layOutGroups(splitGroups(numbers));
  const head = descriptors.flatMap((descriptor) => signedOctets(descriptor, descriptorOctets));
  return {
    representation: representationSection(field, groups, { order, descriptorOctets }),
    data: sectionOctets(7, [...head, ...packGroups(numbers, groups)]),
  };
}

function differencesOf(packed: Float64Array, order: 1 | 2): Float64Array {
  const at = (i: number): number => packed[i] ?? 0;
  return packed.map((value, i) => {
    if (i < order) return 0;
    return order === 1 ? value - at(i - 1) : value - 2 * at(i - 1) + at(i - 2);
  });
}

const signedWidthOctets = (value: number): number => Math.max(1, Math.ceil((bitsNeeded(Math.abs(value)) + 1) / 8));

/** Groups with the widths of their tables. */
interface GroupLayout {
  readonly groups: readonly PackGroup[];
  readonly referenceBits: number;
  readonly leastWidthBits: number;
  readonly widthBits: number;
  readonly leastLengthCount: number;
  readonly lengthBits: number;
  readonly lastLengthCount: number;
}

const lengthOf = (group: PackGroup): number => group.toIndex - group.fromIndex;

function layOutGroups(groups: readonly PackGroup[]): GroupLayout {
  const widths = groups.map(groupWidthBits);
  const lengths = groups.map(lengthOf);
  const leastWidthBits = smallest(widths);
  const leastLengthCount = smallest(lengths);
  return {
    groups,
    referenceBits: bitsNeeded(largest(groups.map(({ reference }) => reference))),
    leastWidthBits,
    widthBits: bitsNeeded(largest(widths) - leastWidthBits),
    leastLengthCount,
    lengthBits: bitsNeeded(largest(lengths) - leastLengthCount),
    lastLengthCount: lengths.at(-1) ?? 0,
  };
}

const smallest = (numbers: readonly number[]): number => numbers.reduce((least, value) => Math.min(least, value));
const largest = (numbers: readonly number[]): number => numbers.reduce((most, value) => Math.max(most, value));

function representationSection(
  field: Quantised,
  layout: GroupLayout,
  differencing: { order: 1 | 2; descriptorOctets: number },
): Uint8Array {
  return sectionOctets(5, [
    ...unsigned(field.packed.length, 4),
    ...unsigned(3, 2),
    ...ieeeOctets(field.reference),
    ...signedOctets(field.binaryScaleFactor, 2),
    ...signedOctets(field.decimalScaleFactor, 2),
    layout.referenceBits,
    FLOATING_POINT,
    GENERAL_SPLITTING,
    NO_MISSING,
    ...unsigned(0xffff_ffff, 4),
    ...unsigned(0xffff_ffff, 4),
    ...unsigned(layout.groups.length, 4),
    layout.leastWidthBits,
    layout.widthBits,
    ...unsigned(layout.leastLengthCount, 4),
    1,
    ...unsigned(layout.lastLengthCount, 4),
    layout.lengthBits,
    differencing.order,
    differencing.descriptorOctets,
  ]);
}

/** Group references, widths, lengths, each table from a whole octet on, then the numbers. */
function packGroups(numbers: Float64Array, layout: GroupLayout): Uint8Array {
  const { groups } = layout;
  const tableBits = groups.length * (layout.referenceBits + layout.widthBits + layout.lengthBits) + 3 * 8;
  const numberBits = groups.reduce((sum, group) => sum + lengthOf(group) * groupWidthBits(group), 0);
  const sink = bitSink(tableBits + numberBits);
  const table = (widthBits: number, valueOf: (group: PackGroup) => number): void => {
    for (const group of groups) putBits(sink, valueOf(group), widthBits);
    padToOctet(sink);
  };
  table(layout.referenceBits, ({ reference }) => reference);
  table(layout.widthBits, (group) => groupWidthBits(group) - layout.leastWidthBits);
  table(layout.lengthBits, (group) => lengthOf(group) - layout.leastLengthCount);
  for (const group of groups) {
    const widthBits = groupWidthBits(group);
    for (let i = group.fromIndex; i < group.toIndex; i++) putBits(sink, (numbers[i] ?? 0) - group.reference, widthBits);
  }
  return sink.octets.subarray(0, Math.ceil(sink.usedBits / 8));
}
