/** Spatial differencing of template 5.3: descriptors at the head of Section 7 and the way back to values. */
import type { Problem } from '../../result/index.ts';
import type { IndexRange } from '../bits.ts';
import type { MessagePlace } from '../problems.ts';
import type { LinearScale } from '../scale.ts';
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

/** What turns packed numbers back into values, and how far along it is. Changed by `finishRange`. */
export interface Chain {
  readonly differencing: Differencing | null;
  readonly scale: LinearScale;
  /** First values used so far. */
  startedCount: number;
  /** Whole number before scaling of the last present point, and its distance from the one before. */
  lastCount: number;
  stepCount: number;
}

/** A chain before its first number. */
export const chainFrom = (differencing: Differencing | null, scale: LinearScale): Chain => ({
  differencing,
  scale,
  startedCount: 0,
  lastCount: 0,
  stepCount: 0,
});

/**
 * Turns a range of packed numbers into values, in place; ranges follow one another. With differencing f(n) =
 * d(n) + min + f(n-1), or d(n) + min + 2 f(n-1) − f(n-2). The first one or two values stand in the descriptors; what is
 * packed in their places means nothing. Missing values (NaN) are not part of the chain.
 */
export function finishRange(values: Float64Array, range: IndexRange, chain: Chain): void {
  const { differencing } = chain;
  if (differencing === null) scaleRange(values, range, chain.scale);
  else {
    const fromIndex = start(values, range, chain, differencing);
    const rest = { fromIndex, toIndex: range.toIndex };
    if (differencing.order === 1) integrateOnce(values, rest, chain, differencing.reference);
    else integrateTwice(values, rest, chain, differencing.reference);
  }
}

function scaleRange(values: Float64Array, { fromIndex, toIndex }: IndexRange, scale: LinearScale): void {
  const { reference, step, factor } = scale;
  for (let i = fromIndex; i < toIndex; i++) values[i] = ((values[i] ?? 0) * step + reference) * factor;
}

/** Puts the first values in the first present places; returns the index after them. */
function start(values: Float64Array, range: IndexRange, chain: Chain, differencing: Differencing): number {
  const { reference, step, factor } = chain.scale;
  let i = range.fromIndex;
  for (; i < range.toIndex && chain.startedCount < differencing.order; i++) {
    if (Number.isNaN(values[i] ?? NaN)) continue;
    const first = differencing.firstValues[chain.startedCount === 0 ? 0 : 1];
    chain.stepCount = first - chain.lastCount;
    chain.lastCount = first;
    chain.startedCount += 1;
    values[i] = (first * step + reference) * factor;
  }
  return i;
}

function integrateOnce(values: Float64Array, range: IndexRange, chain: Chain, minimumCount: number): void {
  const { reference, step, factor } = chain.scale;
  let last = chain.lastCount;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    const difference = values[i] ?? 0;
    // A missing value is NaN, the one number that differs from itself.
    if (difference !== difference) continue;
    last += difference + minimumCount;
    values[i] = (last * step + reference) * factor;
  }
  chain.lastCount = last;
}

/** As 2 f(n-1) − f(n-2) = f(n-1) + (f(n-1) − f(n-2)), the step from point to point is kept and changed. */
function integrateTwice(values: Float64Array, range: IndexRange, chain: Chain, minimumCount: number): void {
  const { reference, step, factor } = chain.scale;
  let last = chain.lastCount;
  let stepCount = chain.stepCount;
  for (let i = range.fromIndex; i < range.toIndex; i++) {
    const difference = values[i] ?? 0;
    if (difference !== difference) continue;
    stepCount += difference + minimumCount;
    last += stepCount;
    values[i] = (last * step + reference) * factor;
  }
  chain.lastCount = last;
  chain.stepCount = stepCount;
}
