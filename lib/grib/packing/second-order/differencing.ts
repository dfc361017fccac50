/** Spatial differencing of orders 1 to 3 as second-order packing writes it. */
import { readRun, viewForRuns } from '../../bits.ts';
import { octet1, type Section } from '../../section.ts';

/** How differences were taken. */
export interface Differencing {
  readonly order: 0 | 1 | 2 | 3;
  /** The first `order` numbers themselves; no group holds them. */
  readonly firstNumbers: Float64Array;
  /** Added to every difference: the smallest one, which was subtracted before packing. */
  readonly reference: number;
  /** Octets of the width and of the numbers above; 0 without differencing. */
  readonly lengthOctets: number;
}

export const NO_DIFFERENCING: Differencing = {
  order: 0,
  firstNumbers: new Float64Array(0),
  reference: 0,
  lengthOctets: 0,
};

/** Octets that the descriptors of an order take: one for the width, and order + 1 numbers of that width. */
export const differencingOctets = (orderNumber: number, widthBits: number): number =>
  orderNumber === 0 ? 0 : 1 + Math.ceil(((orderNumber + 1) * widthBits) / 8);

/**
 * Reads the descriptors of an order above 0. At `octet` stands the width of each number; then the first numbers, unsigned,
 * and the reference, sign and magnitude. The caller has checked that the section holds them and that the width is at most 32.
 */
export function readDifferencing(
  bytes: Uint8Array,
  at: { readonly section: Section; readonly octet: number },
  order: Differencing['order'],
): Differencing {
  const widthBits = octet1(at.section, at.octet);
  const coded = new Float64Array(order + 1);
  const view = viewForRuns(bytes, at.section);
  readRun({ view, startBitIndex: at.octet * 8, widthBits }, coded, {
    fromIndex: 0,
    toIndex: coded.length,
    addedCount: 0,
  });
  const signWeight = 2 ** (widthBits - 1);
  const last = coded[order] ?? 0;
  return {
    order,
    firstNumbers: coded.subarray(0, order),
    reference: widthBits === 0 || last < signWeight ? last : signWeight - last,
    lengthOctets: differencingOctets(order, widthBits),
  };
}

/**
 * Turns differences into numbers, in place: the differences of the given order stand from index `order` on, and each pass
 * sums them to differences of one order less. The first numbers are laid in front, as differences of the order each pass needs.
 */
export function undoDifferences(numbers: Float64Array, { order, firstNumbers, reference }: Differencing): void {
  for (let i = order; i < numbers.length; i++) numbers[i] = (numbers[i] ?? 0) + reference;
  numbers.set(firstNumbers);
  for (let pass = 1; pass < order; pass++) {
    for (let i = order - 1; i >= pass; i--) numbers[i] = (numbers[i] ?? 0) - (numbers[i - 1] ?? 0);
  }
  for (let pass = order; pass > 0; pass--) {
    for (let i = pass; i < numbers.length; i++) numbers[i] = (numbers[i] ?? 0) + (numbers[i - 1] ?? 0);
  }
}
