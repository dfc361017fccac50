/**
 * Random numbers by counter: a draw depends only on its key and its index, never on how many were drawn before it, so
 * that two plans meet the same weather (common random numbers).
 */
import { inverseNormal } from './inverse-normal.ts';

/** What a stream of draws is for; streams of different keys are independent. */
export interface StreamKey {
  readonly seed: number;
  readonly purpose: string;
  readonly variable: string;
}

/** 32 bits that depend on every bit of `bits` (finaliser of MurmurHash3, A. Appleby, public domain). */
function mixed(bits: number): number {
  let h = bits | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** Start of a stream. */
function streamStart(key: StreamKey): number {
  let state = mixed(Math.trunc(key.seed) ^ 0x9e3779b9);
  state = mixed(state ^ Math.trunc(key.seed / 2 ** 32));
  for (const letter of `${key.purpose}|${key.variable}`) state = mixed(state ^ (letter.codePointAt(0) ?? 0)) + 1;
  return state;
}

/** Draw `index` of a stream, 32 bits. */
const drawAt = (startBits: number, index: number): number => mixed(startBits + mixed(index ^ 0x5bd1e995));

/** A permutation of 0 … count − 1, the same for the same key. */
export function shuffledIndices(count: number, key: StreamKey): number[] {
  const start = streamStart(key);
  const draws = Array.from({ length: count }, (_, index) => drawAt(start, index));
  const order = draws.map((_, index) => index);
  return order.toSorted((i, j) => (draws[i] ?? 0) - (draws[j] ?? 0) || i - j);
}

/**
 * `count` standard normal draws, one from each of `count` equally likely strata, in an order that depends on the key.
 * Scaled to unit variance, because the middles of few strata spread too little (0.97 at 31).
 */
export function stratifiedNormals(count: number, key: StreamKey): Float64Array {
  const middles = Float64Array.from({ length: count }, (_, index) => inverseNormal((index + 0.5) / count));
  const sd = Math.sqrt(middles.reduce((sum, z) => sum + z * z, 0) / count);
  const order = shuffledIndices(count, key);
  return Float64Array.from(order, (stratum) => (middles[stratum] ?? 0) / (sd > 0 ? sd : 1));
}
