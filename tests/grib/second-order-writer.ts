/** Messages of edition 1 in the second-order layouts of the standard, built from its text: no encoder at hand writes them. */
import { edition1Grid, edition1Message, edition1Product, replaced } from './edition-1-message.ts';

/** Groups of a field: `numbers` hold first- plus second-order values. */
export interface WrittenGroup {
  readonly reference: number;
  readonly widthBits: number;
  readonly numbers: readonly number[];
}

export interface WrittenField {
  readonly ni: number;
  readonly nj: number;
  /** Points that have a value, in file order; null when all have one. */
  readonly mask: readonly boolean[] | null;
  readonly groups: readonly WrittenGroup[];
  /** Bits of each first-order value. */
  readonly referenceBits: number;
  readonly hasSecondaryBitmap: boolean;
  readonly hasDifferentWidths: boolean;
}

const bitsOf = (value: number, widthBits: number): string =>
  widthBits === 0 ? '' : value.toString(2).padStart(widthBits, '0');

/** Octets of a string of bits, zeros behind. */
const octetsOf = (bits: string): number[] =>
  Array.from({ length: Math.ceil(bits.length / 8) }, (_, i) =>
    Number.parseInt(bits.slice(8 * i, 8 * i + 8).padEnd(8, '0'), 2),
  );

/** The first point of a group is marked. */
const markOf = ({ numbers }: WrittenGroup): string => numbers.map((_, i) => (i === 0 ? '1' : '0')).join('');

const two = (value: number): number[] => [value >> 8, value & 255];
const three = (value: number): number[] => [value >> 16, ...two(value & 0xffff)];

/** Reference value 2940 as edition 1 writes it. */
const REFERENCE = [0x43, 0xb7, 0xc0, 0x00];

/** Section 4 (code table 11, notes 1 to 6 to second-order packing), E 0. */
function secondOrderSection(field: WrittenField): number[] {
  const { groups, referenceBits, hasSecondaryBitmap, hasDifferentWidths } = field;
  const widths = groups.map(({ widthBits }) => widthBits);
  const values = groups.flatMap(({ numbers, reference, widthBits }) =>
    numbers.map((number) => bitsOf(number - reference, widthBits)),
  );
  const head = [
    ...(hasDifferentWidths ? widths : widths.slice(0, 1)),
    ...(hasSecondaryBitmap ? octetsOf(groups.map(markOf).join('')) : []),
  ];
  const firstOrder = octetsOf(groups.map(({ reference }) => bitsOf(reference, referenceBits)).join(''));
  const secondOrder = octetsOf(values.join(''));
  const n1 = 22 + head.length;
  const n2 = n1 + firstOrder.length;
  const lengthOctets = n2 - 1 + secondOrder.length;
  const padding = lengthOctets % 2 === 0 ? [] : [0];
  const unusedBits = secondOrder.length * 8 - values.join('').length + padding.length * 8;
  const flags = (hasSecondaryBitmap ? 0x20 : 0) + (hasDifferentWidths ? 0x10 : 0);
  return [
    ...three(lengthOctets + padding.length),
    0x50 + unusedBits,
    0,
    0,
    ...REFERENCE,
    referenceBits,
    ...two(n1),
    flags,
    ...two(n2),
    ...two(groups.length),
    ...two(values.length),
    0,
    ...head,
    ...firstOrder,
    ...secondOrder,
    ...padding,
  ];
}

/** The whole message. */
export function secondOrderMessage(field: WrittenField): Uint8Array {
  const { ni, nj, mask } = field;
  const corners = [...three(30_000), ...three(0), 0x80, ...three(30_000 - 1000 * (nj - 1)), ...three(1000 * (ni - 1))];
  const grid = replaced(edition1Grid, 7, [...two(ni), ...two(nj), ...corners, ...two(1000), ...two(1000), 0]);
  const data = secondOrderSection(field);
  if (mask === null) return edition1Message({ product: edition1Product, grid, data });
  const present = octetsOf(mask.map(Number).join(''));
  const unused = present.length * 8 - mask.length;
  return edition1Message({
    product: replaced(edition1Product, 8, [0xc0]),
    grid,
    bitmap: [...three(6 + present.length), unused, 0, 0, ...present],
    data,
  });
}
