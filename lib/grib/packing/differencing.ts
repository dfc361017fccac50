/** Spatial differencing of template 5.3: descriptors at the head of Section 7 and the way back to values. */
import type { Problem } from '../../result/index.ts';
import type { MessagePlace } from '../problems.ts';
import { octet1, type Section, signMagnitude } from '../section.ts';
import { dataTooShort } from './simple.ts';

/** What undoing the differences needs. */
export interface Differencing {
  readonly order: 1 | 2;
  readonly firstValues: readonly [number, number];
  /** Overall minimum of the differences, subtracted before packing. */
  readonly reference: number;
  /** Octets the descriptors take. */
  readonly lengthOctets: number;
}

/** Octets of Section 7 before the descriptors. */
const HEADER_OCTETS = 5;

/** Reads `order` first values and the minimum, each `octet 49` octets of sign and magnitude (template 7.3). */
export function readDifferencing(place: MessagePlace, representation: Section, data: Section): Differencing | Problem {
  const order = octet1(representation, 48) === 1 ? 1 : 2;
  const widthOctets = octet1(representation, 49);
  const lengthOctets = (order + 1) * widthOctets;
  if (data.lengthOctets < HEADER_OCTETS + lengthOctets) return dataTooShort(place, data, lengthOctets * 8);
  const descriptor = (index: number): number =>
    readSigned(data, { firstOctet: HEADER_OCTETS + 1 + index * widthOctets, widthOctets });
  const second = order === 2 ? descriptor(1) : 0;
  return { order, firstValues: [descriptor(0), second], reference: descriptor(order), lengthOctets };
}

function readSigned(data: Section, at: { firstOctet: number; widthOctets: number }): number {
  let unsigned = 0;
  for (let i = 0; i < at.widthOctets; i++) unsigned = unsigned * 256 + octet1(data, at.firstOctet + i);
  return at.widthOctets === 0 ? 0 : signMagnitude(unsigned, at.widthOctets);
}

/**
 * Turns differences back into values, in place: f(n) = d(n) + min + f(n-1), or d(n) + min + 2 f(n-1) − f(n-2).
 * The first one or two values stand in the descriptors; what is packed in their places means nothing.
 * Missing values (NaN) are not part of the chain.
 */
export function integrate(packed: Float64Array, differencing: Differencing): void {
  if (differencing.order === 1) integrateOnce(packed, differencing);
  else integrateTwice(packed, differencing);
}

function integrateOnce(packed: Float64Array, { firstValues, reference }: Differencing): void {
  let i = nextPresent(packed, 0);
  if (i >= packed.length) return;
  let previous = firstValues[0];
  packed[i] = previous;
  for (i += 1; i < packed.length; i++) {
    const difference = packed[i] ?? NaN;
    if (Number.isNaN(difference)) continue;
    previous += difference + reference;
    packed[i] = previous;
  }
}

function integrateTwice(packed: Float64Array, { firstValues, reference }: Differencing): void {
  let i = nextPresent(packed, 0);
  if (i < packed.length) packed[i] = firstValues[0];
  i = nextPresent(packed, i + 1);
  if (i < packed.length) packed[i] = firstValues[1];
  let [beforePrevious, previous] = firstValues;
  for (i += 1; i < packed.length; i++) {
    const difference = packed[i] ?? NaN;
    if (Number.isNaN(difference)) continue;
    const value = difference + reference + 2 * previous - beforePrevious;
    beforePrevious = previous;
    previous = value;
    packed[i] = value;
  }
}

function nextPresent(packed: Float64Array, fromIndex: number): number {
  let i = fromIndex;
  while (i < packed.length && Number.isNaN(packed[i] ?? NaN)) i++;
  return i;
}
