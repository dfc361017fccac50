/** 32 bits that depend on every bit of `bits` (finaliser of MurmurHash3, A. Appleby, public domain). */
export function mixedBits(bits: number): number {
  let h = bits | 0;
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b);
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35);
  return (h ^ (h >>> 16)) >>> 0;
}

/** 32 bits for a text under a seed: the start of a stream of draws that depends on nothing else. */
export function textBits(seed: number, text: string): number {
  let state = mixedBits(Math.trunc(seed) ^ 0x9e3779b9);
  state = mixedBits(state ^ Math.trunc(seed / 2 ** 32));
  for (const letter of text) state = mixedBits(state ^ (letter.codePointAt(0) ?? 0)) + 1;
  return mixedBits(state);
}

/** Draw `index` of a stream, 32 bits. */
export const drawBits = (streamBits: number, index: number): number =>
  mixedBits(streamBits + mixedBits(index ^ 0x5bd1e995));

/** A permutation of 0 … count − 1, the same for the same stream. */
export function permutation(count: number, streamBits: number): Uint32Array {
  const draws = Uint32Array.from({ length: count }, (_, index) => drawBits(streamBits, index));
  return Uint32Array.from(draws, (_, index) => index).toSorted((a, b) => (draws[a] ?? 0) - (draws[b] ?? 0) || a - b);
}
