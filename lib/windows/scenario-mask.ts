/** Sets of scenarios as bits, 32 to a word. */

export const maskWordCount = (scenarioCount: number): number => Math.ceil(scenarioCount / 32);

/** All scenarios. */
export function fullMask(scenarioCount: number): Uint32Array {
  const mask = new Uint32Array(maskWordCount(scenarioCount));
  for (let w = 0; w < scenarioCount; w++) setBit(mask, w);
  return mask;
}

function setBit(mask: Uint32Array, w: number): void {
  const index = w >>> 5;
  mask[index] = ((mask[index] ?? 0) | (1 << (w & 31))) >>> 0;
}

export function hasBit(mask: Uint32Array, w: number): boolean {
  return (((mask[w >>> 5] ?? 0) >>> (w & 31)) & 1) === 1;
}

/** Scenarios in both sets; `b` is read from a table at `wordOffsetIndex`. */
export function intersect(a: Uint32Array, b: Uint32Array, wordOffsetIndex = 0): Uint32Array {
  const both = new Uint32Array(a.length);
  for (let k = 0; k < a.length; k++) both[k] = ((a[k] ?? 0) & (b[wordOffsetIndex + k] ?? 0)) >>> 0;
  return both;
}

/** Summed weight of the scenarios in both sets, without making the set. */
export function weightOfBoth(
  a: Uint32Array,
  b: Uint32Array,
  at: { wordOffsetIndex: number; weights: Int32Array },
): number {
  let weight = 0;
  for (let k = 0; k < a.length; k++) {
    let word = ((a[k] ?? 0) & (b[at.wordOffsetIndex + k] ?? 0)) >>> 0;
    while (word !== 0) {
      const bit = 31 - Math.clz32(word);
      weight += at.weights[k * 32 + bit] ?? 0;
      word = (word & ~(1 << bit)) >>> 0;
    }
  }
  return weight;
}

/** Summed weight of a set. */
export const weightOf = (mask: Uint32Array, weights: Int32Array): number =>
  weightOfBoth(mask, mask, { wordOffsetIndex: 0, weights });

/** True when every scenario of `a` is in `b`. */
export function isSubset(a: Uint32Array, b: Uint32Array): boolean {
  return a.every((word, k) => (word & ~(b[k] ?? 0)) === 0);
}

/** The set that stands at a slot of a table of sets. */
export function setOfTable(table: { masks: Uint32Array; wordCount: number }, slotIndex: number): Uint32Array {
  return table.masks.subarray(slotIndex * table.wordCount, (slotIndex + 1) * table.wordCount);
}
