import { i32 } from './typed-reads.ts';

/** Bits looked up at once: three tables of 2 048 weights serve a word of 32 scenarios. */
const PART_BITS = 11;
const PART_COUNT = 3;
const PART_LENGTH = 1 << PART_BITS;

/** Weighs sets of scenarios kept as bits, 32 to a word, by look-up. */
export class ScenarioScale {
  readonly wordCount: number;
  readonly totalWeight: number;
  private readonly parts: Int32Array;

  constructor(weights: Int32Array) {
    this.wordCount = Math.max(1, Math.ceil(weights.length / 32));
    this.totalWeight = weights.reduce((sum, weight) => sum + weight, 0);
    this.parts = new Int32Array(this.wordCount * PART_COUNT * PART_LENGTH);
    for (let part = 0; part < this.wordCount * PART_COUNT; part++) this.fillPart(part, weights);
  }

  /** Every scenario. */
  fullMask(scenarioCount: number): Int32Array {
    const mask = new Int32Array(this.wordCount);
    for (let w = 0; w < scenarioCount; w++) mask[w >> 5] = i32(mask, w >> 5) | (1 << (w & 31));
    return mask;
  }

  /** Summed weight of the set that begins at a word of an array. */
  weigh(masks: Int32Array, fromIndex: number): number {
    let weight = 0;
    for (let word = 0; word < this.wordCount; word++) weight += this.weighWord(word, i32(masks, fromIndex + word));
    return weight;
  }

  /** Summed weight of the scenarios in both of two sets. */
  weighBoth(a: Int32Array, aFromIndex: number, b: Int32Array, bFromIndex: number): number {
    let weight = 0;
    for (let word = 0; word < this.wordCount; word++)
      weight += this.weighWord(word, i32(a, aFromIndex + word) & i32(b, bFromIndex + word));
    return weight;
  }

  private weighWord(wordIndex: number, bits: number): number {
    const { parts } = this;
    const at = wordIndex * PART_COUNT * PART_LENGTH;
    return (
      i32(parts, at + (bits & (PART_LENGTH - 1))) +
      i32(parts, at + PART_LENGTH + ((bits >>> PART_BITS) & (PART_LENGTH - 1))) +
      i32(parts, at + 2 * PART_LENGTH + (bits >>> (2 * PART_BITS)))
    );
  }

  private fillPart(partIndex: number, weights: Int32Array): void {
    const from = Math.floor(partIndex / PART_COUNT) * 32 + (partIndex % PART_COUNT) * PART_BITS;
    for (let bits = 1; bits < PART_LENGTH; bits++) {
      const top = 31 - Math.clz32(bits);
      // The last part of a word holds ten scenarios only: its upper half is never asked for.
      const weight = (partIndex % PART_COUNT) * PART_BITS + top < 32 ? (weights[from + top] ?? 0) : 0;
      const at = partIndex * PART_LENGTH + bits;
      this.parts[at] = i32(this.parts, at ^ (1 << top)) + weight;
    }
  }
}
